import { Color, LinearSRGBColorSpace, Scene, Vector3 } from "three";
import { ORIGIN, type Vec } from "../../core/space/index.ts";
import { seenFrom } from "../../words/index.ts";
import { Bars } from "./bars.ts";
import { axesOf, type Camera, directionOf, straightOf } from "./camera.ts";
import { Canvas } from "./canvas.ts";
import { attachControls } from "./controls.ts";
import { Extras } from "./extras.ts";
import { Eye } from "./eye.ts";
import { Marker } from "./marker.ts";
import { Materials } from "./materials.ts";
import { Moves, turned } from "./moves.ts";
import { Names } from "./names.ts";
import { type Picked, pickBar, pickPoint, sightAt } from "./pick.ts";
import { seenAt } from "./project.ts";
import { awayFrom, isKept, planeOf } from "./section.ts";
import type { ViewTheme } from "./theme.ts";
import type { Section, Viewer, ViewerOptions } from "./types.ts";

/** Degrees a CSS pixel of a drag turns. */
const TURN = 0.4;
/** A tap takes the nearest bar within 9 mm of it, so that a target is 18 mm wide (a CSS pixel is 1/96 inch). */
const REACH = (9 / 25.4) * 96;
/** A mouse points at what it is on, or all but on. */
const POINTED = 6;
/** Beyond two device pixels to a CSS pixel the eye gains nothing and a tablet loses its breath. */
const RATIO = 2;
/** Beyond so many mm to a CSS pixel a tube's coarse surface is within half a pixel of its true one. */
const FAR_PIXEL = 1.8;
/** In motion, where pictures are slow, half of that will do. */
const FAR_IN_MOTION = 0.9;
/** Above and below what is fitted, where names are shown (CSS pixels). */
const NAME_ROOM = 32;
/** After so long without a change (ms) the picture is at rest and drawn smooth. */
const REST = 150;

/**
 * The cage on a canvas. The canvas's CSS size is the picture's; it is drawn only when something changed.
 * Throws where the device has no WebGL 2. The canvas needs a label from its owner; keys work while it has the focus.
 */
export function createViewer(canvas: HTMLCanvasElement, options: ViewerOptions): Viewer {
  const { origin = ORIGIN, onTap, onPoint, onCamera, onContext } = options;
  const surface = new Canvas(canvas);
  const { renderer } = surface;
  const materials = new Materials(options.theme);
  const bars = new Bars(materials, origin);
  const extras = new Extras(materials, origin);
  const marker = new Marker(materials);
  const eye = new Eye(origin);
  const names = options.names && new Names(options.names);
  const scene = new Scene();
  scene.add(extras.group, bars.group);

  let section: Required<Section> | null = null;
  let pointsInHand: readonly string[] = [];
  let shown = "";
  let asked = 0;
  let frames = 0;
  let ms = 0;
  let isAlive = true;
  let ground = groundOf(options.theme);
  let isSmooth = false;
  let resting: ReturnType<typeof setTimeout> | undefined;
  let settling: ReturnType<typeof setTimeout> | undefined;
  let isFresh = false;
  let isDue = false;
  /** Anything but the shapes of bars is another than in the picture before. */
  let isWhole = true;
  /** The last picture was drawn anew in part. */
  let isPart = false;
  /** The draft on the canvas, and what it was drawn by. */
  let draft: Draft | undefined;

  const measured = (): readonly [number, number] => [
    Math.max(1, canvas.clientWidth),
    Math.max(1, canvas.clientHeight),
  ];
  let area = measured();
  /** To ask the canvas itself would lay out the whole page anew before each picture. */
  const size = (): readonly [number, number] => area;
  const moves = new Moves({
    size,
    bars: (ids) => bars.blobs(ids),
    others: () => extras.blobs(),
    placeAt: (camera, x, y) => barNear(x, y, POINTED, camera)?.place,
    ...(options.room ? { room: options.room } : {}),
    ask,
  });

  function ask(): void {
    isWhole = true;
    next();
  }

  function next(): void {
    if (isAlive && asked === 0) asked = requestAnimationFrame((now) => draw(now));
  }

  /** What an edit changed is drawn as soon as the task is over, unless the frame to come has its picture already. */
  function soon(): void {
    if (isFresh || frames === 0) {
      next();
      return;
    }
    if (isDue) return;
    isDue = true;
    queueMicrotask(() => {
      isDue = false;
      if (!isAlive) return;
      cancelAnimationFrame(asked);
      draw(performance.now());
      isFresh = true;
      requestAnimationFrame(() => {
        isFresh = false;
      });
    });
  }

  /** Smooth once nothing changed for a while after a picture was there to be seen. */
  function rest(): void {
    if (!isSmooth) resting = setTimeout(() => isAlive && draw(performance.now(), true), REST);
  }

  function draw(now: number, isAtRest = false): void {
    asked = 0;
    const began = performance.now();
    clearTimeout(resting);
    isSmooth = isAtRest || surface.isQuick;
    const camera = moves.at(now);
    const [w, h] = size();
    const ratio = Math.min(RATIO, devicePixelRatio || 1);
    surface.size(w, h, ratio);
    const pixel = camera.height / h;
    materials.setScale(canvas.width, canvas.height, ratio, pixel);
    const lens = eye.aim(camera, w / h, moves.around);
    const isFar = pixel > (isSmooth ? FAR_PIXEL : FAR_IN_MOTION);
    const { toward, up } = axesOf(camera);
    const range = bars.range(toward);
    const isKin = !isWhole && !isSmooth && draft && isOf(draft, { camera, w, h, ratio, range });
    const patch = isKin ? bars.patch(camera, [w, h]) : undefined;
    isPart = patch !== undefined;
    isWhole = false;
    if (isSmooth) draft = undefined;
    else if (!patch) draft = { camera, w, h, ratio, range };
    const away = patch ? bars.beside(patch, camera, [w, h]) : isFar ? NONE : bars.outside(lens);
    bars.ready(isFar, !isSmooth, away);
    const at = lens.position.dot(new Vector3(...toward));
    const [far, near] = draft?.range ?? range;
    materials.setDepth(at - near, at - far);
    materials.setLight(up[2]);
    const paint = (): void => {
      renderer.clippingPlanes = section ? [planeOf(section, origin)] : [];
      // Set anew each time: a context that was lost comes back with black.
      renderer.setClearColor(ground);
      renderer.setScissorTest(patch !== undefined);
      if (patch) renderer.setScissor(patch.x, h - patch.y - patch.height, patch.width, patch.height);
      renderer.clear();
      renderer.render(scene, lens);
      renderer.clippingPlanes = [];
      marker.draw(renderer, materials, lens.quaternion, h);
    };
    surface.draw(isSmooth, paint, rest);
    names?.draw(camera, [w, h], kept, isAtRest);
    if (names && isSmooth && !isAtRest) settle();
    frames++;
    ms = performance.now() - began;
    tell();
  }

  /** Where every picture is smooth, names still have to be placed anew when the last one is drawn. */
  function settle(): void {
    clearTimeout(settling);
    settling = setTimeout(() => isAlive && names?.draw(moves.here, size(), kept, true), REST);
  }

  function tell(): void {
    const at = moves.aim;
    const text = seenFrom(at.az, at.el);
    const view = at.perspective === 0 ? straightOf(at) : undefined;
    if (`${text} ${view}` === shown) return;
    shown = `${text} ${view}`;
    onCamera?.(text, view);
  }

  /** What a section leaves standing. */
  const kept = (p: Vec): boolean => section === null || isKept(section, p);

  /** Another bar, point or body line may have a name now. */
  function rename(): void {
    names?.set([...extras.named(pointsInHand), ...bars.named()]);
  }

  function barNear(x: number, y: number, reach: number, camera = moves.here): Picked | undefined {
    const [w, h] = size();
    return pickBar(sightAt(camera, x - w / 2, h / 2 - y, h), bars.pickables(), reach, kept);
  }

  function tap(x: number, y: number): void {
    const [w, h] = size();
    const point =
      onPoint &&
      (names?.pointAt(x, y) ??
        pickPoint(
          extras.points,
          (p) => (kept(p) ? seenAt(moves.here, p, [w, h]) : undefined),
          [x, y],
          REACH,
        ));
    if (point !== undefined) {
      onPoint?.(point);
      return;
    }
    const found = barNear(x, y, REACH);
    if (found) onTap(found.id, { place: found.place, along: found.along });
    else onTap(null, null);
  }

  const detach = attachControls(canvas, {
    turn: (dx, dy) => moves.turn(dx * TURN, dy * TURN),
    pan: (dx, dy) => moves.pan(dx, dy),
    zoom: (factor, x, y) => moves.zoom(factor, x, y),
    tap,
    centre(x, y) {
      const found = barNear(x, y, REACH);
      moves.go(found ? { ...moves.aim, target: found.place } : moves.fitTo());
    },
    fit: () => moves.go(moves.fitTo()),
  });
  const resized = new ResizeObserver(() => {
    area = measured();
    ask();
  });
  resized.observe(canvas);
  const off = new AbortController();
  canvas.addEventListener(
    "webglcontextlost",
    (e) => {
      e.preventDefault();
      isAlive = false;
      surface.lost();
      onContext?.(false);
    },
    { signal: off.signal },
  );
  canvas.addEventListener(
    "webglcontextrestored",
    () => {
      isAlive = true;
      draft = undefined;
      onContext?.(true);
      ask();
    },
    { signal: off.signal },
  );

  return {
    setBars(list) {
      bars.set(list);
      rename();
      moves.measure();
      soon();
    },
    setExtras(all) {
      if (!extras.set(all)) return;
      isWhole = true;
      rename();
      moves.measure();
      soon();
    },
    setInHand(id, points = []) {
      bars.setInHand(id);
      pointsInHand = points;
      rename();
      ask();
    },
    setNames(isOn, hasBars) {
      if (!names) return;
      names.show(isOn, hasBars);
      moves.margin = isOn ? NAME_ROOM : 0;
      ask();
    },
    setSection(next) {
      section = next && { ...next, away: next.away ?? awayFrom(next, moves.here) };
      materials.setCut(section !== null);
      bars.setSection(section);
      ask();
    },
    setStaging(staging) {
      bars.setStaging(staging);
      rename();
      moves.measure();
      ask();
    },
    setTheme(theme) {
      materials.setTheme(theme);
      ground = groundOf(theme);
      ask();
    },
    look(view) {
      const perspective = view === "three-quarter" ? 1 : 0;
      moves.go(moves.fitTo(undefined, { ...moves.aim, ...directionOf(view), perspective }));
    },
    lookFrom: (direction) => moves.go(moves.fitTo(undefined, { ...moves.aim, ...direction, perspective: 1 })),
    fit: (ids) => moves.go(moves.fitTo(ids)),
    bring(ids) {
      if (!moves.isSeen(ids)) moves.go(moves.fitTo(ids));
    },
    turn: (right, up) => moves.go({ ...turned(moves.aim, right, up), perspective: 1 }),
    zoom: (factor) => moves.zoomMiddle(factor),
    barAt: (x, y) => barNear(x, y, POINTED)?.id ?? null,
    setPointed(id) {
      if (bars.setPointed(id)) ask();
    },
    camera: () => moves.aim,
    drawn: () => ({ frames, ms, isSmooth, isPart }),
    dispose() {
      cancelAnimationFrame(asked);
      clearTimeout(resting);
      clearTimeout(settling);
      isAlive = false;
      detach();
      off.abort();
      resized.disconnect();
      bars.dispose();
      extras.dispose();
      marker.dispose();
      names?.dispose();
      materials.dispose();
      surface.dispose();
    },
  };
}

/** What a draft was drawn by; `range`: how far toward the eye its bars reach. */
interface Draft {
  readonly camera: Camera;
  readonly w: number;
  readonly h: number;
  readonly ratio: number;
  readonly range: readonly [number, number];
}

/** Tones that differ by less than this share of the whole depth look the same. */
const TONE = 0.01;

/** Whether a part of a draft may be drawn anew with what there is now, and the rest be left. */
const isOf = (draft: Draft, { camera, w, h, ratio, range: [far, near] }: Draft): boolean =>
  draft.camera === camera &&
  draft.w === w &&
  draft.h === h &&
  draft.ratio === ratio &&
  Math.abs(draft.range[0] - far) + Math.abs(draft.range[1] - near) < TONE * (draft.range[1] - draft.range[0]);

const NONE: ReadonlySet<string> = new Set();

/** As it is written: the renderer would take it for another kind of colour. */
const groundOf = (theme: ViewTheme): Color => new Color().setStyle(theme.ground, LinearSRGBColorSpace);
