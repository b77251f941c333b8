// biome-ignore-all lint/style/noNonNullAssertion: a mesh's spine has four numbers a place and its positions three, and places are read whole.
import { Box3, type Camera, Frustum, Group, Matrix4, type Mesh, type Points, Sphere, Vector3 } from "three";
import type { TubeMesh } from "../../core/mesh/index.ts";
import { sub, type Vec } from "../../core/space/index.ts";
import { Arena, type Slot } from "./arena.ts";
import { BarNames } from "./bar-names.ts";
import type { Blob, Camera as View } from "./camera.ts";
import { type Look, lookOf, marksOf, type Part } from "./dress.ts";
import { EndMarks } from "./ends.ts";
import { Layer } from "./layer.ts";
import { LINE_SIZES, lineObject, lineRows, Strips } from "./lines.ts";
import type { Materials } from "./materials.ts";
import type { Named } from "./names.ts";
import { isIn, patchOf } from "./patch.ts";
import { outlineOf } from "./section.ts";
import { rangeOf, spineAt, spreadOf } from "./spread.ts";
import { posedAt, type Staging, stageGroup } from "./staging.ts";
import type { Box } from "./thin.ts";
import type { Section, ViewBar } from "./types.ts";

interface Built {
  bar: ViewBar;
  /** Where its vertices are in the arena of surfaces, and its rims' in that of lines (near, far). */
  surface: Slot;
  readonly rims: [near: Slot | undefined, far: Slot | undefined];
  /** Which rims are not those of its mesh any more. */
  readonly stale: [near: boolean, far: boolean];
  /** Holds it, in the view's places. */
  readonly ball: Sphere;
  look: Look;
  /** What is drawn of it alone: marks, lines of its state, the outline of the section through it. */
  readonly group: Group;
  extra: (Mesh | Points)[];
  cut: Mesh | undefined;
}

/** The bars in the scene, kept by ID; what an edit left alone stays as it is. */
export class Bars {
  readonly group = new Group();
  private readonly built = new Map<string, Built>();
  private readonly materials: Materials;
  private readonly origin: Vec;
  private readonly surfaces = new Arena({ position: 3, normal: 3 });
  private readonly lines = new Arena(LINE_SIZES);
  /** All bars at their seats, and the one on its way. */
  private readonly seated = new Layer();
  private readonly moving = new Layer();
  private inHand: string | null = null;
  private pointed: string | null = null;
  /** What the bar in hand lands on. */
  private hosts: ReadonlySet<string> = new Set();
  private readonly ends: EndMarks;
  /** Places along all bars that are drawn at their seats (x, y, z, less the view's origin), for how deep the picture is. */
  private readonly called = new BarNames();
  private spread: Float32Array = new Float32Array(0);
  private section: Required<Section> | null = null;
  private staging: Staging | null = null;
  private isFar = false;
  private isDraft = false;
  private readonly strips = new Strips();
  /** Bars that are left out of what is drawn. */
  private away: ReadonlySet<string> = new Set();
  private isReady = false;
  /** Where bars end and how deep the picture is are of the bars themselves, not of how much of them is drawn. */
  private isSpread = false;
  /** The tubes of before and after where since the last picture only shapes are others; undefined: anything may be. */
  private reshaped: TubeMesh[] | undefined;

  constructor(materials: Materials, origin: Vec) {
    this.materials = materials;
    this.origin = origin;
    this.ends = new EndMarks(materials);
    this.group.add(this.seated.group, this.moving.group, this.ends.object);
  }

  set(bars: readonly ViewBar[]): void {
    const wanted = new Set(bars.map((b) => b.id));
    for (const [id, built] of this.built) {
      if (wanted.has(id)) continue;
      this.remove(id, built);
      this.again();
    }
    for (const bar of bars) {
      const kept = this.built.get(bar.id);
      if (kept && kept.bar.mesh === bar.mesh) {
        const { progress, state } = kept.bar;
        kept.bar = bar;
        if (progress !== bar.progress) this.again();
        if (state !== bar.state) this.dress(kept);
        continue;
      }
      this.respread();
      if (kept) this.reshaped?.push(kept.bar.mesh, bar.mesh);
      const isAlike = kept?.bar.state === bar.state && kept.bar.progress === bar.progress;
      const built = kept ? this.reshape(kept, bar) : this.build(bar);
      this.dress(built, isAlike);
      this.cut(built);
      this.stage(built);
    }
    this.setHosts();
  }

  /** A moment of fitting, or all bars at their seats. */
  setStaging(staging: Staging | null): void {
    this.staging = staging;
    for (const built of this.built.values()) this.stage(built);
    const { posed } = staging ?? {};
    if (posed) stageGroup(this.moving.group, posed.id, this.origin, this.origin, staging);
    this.again();
  }

  private respread(): void {
    this.isReady = false;
    this.isSpread = false;
  }

  /** More than shapes is another. */
  private again(): void {
    this.respread();
    this.reshaped = undefined;
  }

  private stage({ bar: { id, mesh }, group }: Built): void {
    stageGroup(group, id, mesh.origin, this.origin, this.staging);
  }

  setSection(section: Required<Section> | null): void {
    this.section = section;
    for (const built of this.built.values()) this.cut(built);
    this.again();
  }

  setInHand(id: string | null): void {
    const before = this.inHand;
    this.inHand = id;
    if (before !== id) this.again();
    this.dressAgain([before, id]);
    this.setHosts();
  }

  /** An edit may land the bar in hand on another. */
  private setHosts(): void {
    const before = this.hosts;
    const inHand = this.inHand === null ? undefined : this.built.get(this.inHand);
    this.hosts = new Set(inHand?.bar.hosts);
    this.dressAgain([...before].filter((id) => !this.hosts.has(id)));
    this.dressAgain([...this.hosts].filter((id) => !before.has(id)));
  }

  /** Whether another is pointed at than before. */
  setPointed(id: string | null): boolean {
    const before = this.pointed;
    this.pointed = id;
    if (before !== id) this.dressAgain([before, id]);
    return before !== id;
  }

  private dressAgain(ids: readonly (string | null)[]): void {
    for (const changed of new Set(ids)) {
      const built = changed === null ? undefined : this.built.get(changed);
      if (built) this.dress(built);
    }
  }

  /**
   * Puts together what the next picture draws, where that is another than before. From afar the coarse surfaces do, and
   * are drawn in a quarter of the time.
   * A draft is drawn in half the steps, for motion.
   */
  ready(isFar: boolean, isDraft: boolean, away: ReadonlySet<string>): void {
    this.reshaped = [];
    const isSame =
      isFar === this.isFar &&
      isDraft === this.isDraft &&
      away.size === this.away.size &&
      [...away].every((id) => this.away.has(id));
    if (this.isReady && isSame) return;
    this.isReady = true;
    this.isFar = isFar;
    this.isDraft = isDraft;
    this.away = away;
    const { posed, hidden } = this.staging ?? {};
    for (const layer of [this.seated, this.moving]) layer.begin();
    for (const [id, built] of this.built) {
      if (hidden?.has(id) || (away.has(id) && id !== posed?.id)) continue;
      this.draw(built, id === posed?.id ? this.moving : this.seated);
    }
    for (const layer of [this.seated, this.moving]) layer.end();
  }

  /** What the next picture of this camera has to draw anew, where only shapes are others; undefined: the whole. */
  patch(camera: View, size: readonly [number, number]): Box | undefined {
    const { reshaped } = this;
    // a bar on its way is drawn elsewhere than at its seat
    if (!reshaped || reshaped.length === 0 || this.section || this.staging) return undefined;
    return patchOf(reshaped, camera, size);
  }

  /** Bars of which nothing is seen in a part of the picture. */
  beside(patch: Box, camera: View, size: readonly [number, number]): ReadonlySet<string> {
    return new Set(
      [...this.built].flatMap(([id, { bar }]) => (isIn(patch, bar.mesh, camera, size) ? [] : [id])),
    );
  }

  /** At their seats, with nothing taken away. */
  private shown(): ViewBar[] {
    const { posed, hidden } = this.staging ?? {};
    return [...this.built.values()].flatMap(({ bar }) =>
      bar.id === posed?.id || hidden?.has(bar.id) ? [] : [bar],
    );
  }

  /** How far along a direction (of length 1) the nearest and the farthest of the bars are, less the view's origin. */
  range(direction: Vec): readonly [number, number] {
    this.measure();
    return rangeOf(this.spread, direction);
  }

  /** Where bars end and how deep the picture is. */
  private measure(): void {
    if (this.isSpread) return;
    this.isSpread = true;
    const seated = this.shown();
    this.ends.set(seated, this.inHand, this.origin);
    this.spread = spreadOf(seated, this.origin);
  }

  /** The bore and its rims are drawn only where one can see them. */
  private draw(built: Built, layer: Layer): void {
    const { mesh } = built.bar;
    const { isFar } = this;
    const { fill, hull, rims, draft, hidden } = built.look;
    const seesIn = this.section !== null || mesh.hasOpenEnd;
    const indices = isFar ? mesh.farIndices : mesh.indices;
    const outer = isFar ? mesh.farOuterCount : mesh.outerCount;
    const edges = isFar ? mesh.farEdges : mesh.edges;
    const segments = seesIn ? edges.length / 6 : isFar ? mesh.farOuterEdges : mesh.outerEdges;
    const strips = this.strips.of(segments);
    const { first } = built.surface;
    // A section shows the inside of walls, which the draft does not tell from their outside.
    const isDraft = this.isDraft && this.section === null;
    layer.add(this.surfaces, isDraft ? draft : fill, indices, seesIn ? indices.length : outer, first);
    if (!isDraft) layer.add(this.surfaces, hull, indices, outer, first);
    if (hidden) layer.add(this.surfaces, hidden, indices, outer, first);
    layer.add(this.lines, rims, strips, strips.length, this.rims(built, isFar ? 1 : 0).first);
  }

  /** Where its rims are; put there when first drawn, for mostly only those from afar are. */
  private rims(built: Built, which: 0 | 1): Slot {
    const kept = built.rims[which];
    if (kept && !built.stale[which]) return kept;
    const { mesh } = built.bar;
    const rows = lineRows(which === 1 ? mesh.farEdges : mesh.edges, sub(mesh.origin, this.origin));
    const slot = this.lines.put(rows, kept);
    built.rims[which] = slot;
    built.stale[which] = false;
    return slot;
  }

  /** Bars of which nothing is in the picture: left out when near, for their fine surfaces are dear. */
  outside(camera: Camera): ReadonlySet<string> {
    const sight = new Frustum().setFromProjectionMatrix(
      new Matrix4().multiplyMatrices(camera.projectionMatrix, camera.matrixWorldInverse),
    );
    return new Set([...this.built].flatMap(([id, { ball }]) => (sight.intersectsSphere(ball) ? [] : [id])));
  }

  /** For picking, in car axes but for the origin that each names. */
  pickables(): { id: string; origin: Vec; spine: Float32Array; radius: number }[] {
    return this.shown().map(({ id, mesh }) => ({
      id,
      origin: mesh.origin,
      spine: mesh.spine,
      radius: mesh.radius,
    }));
  }

  named(): Named[] {
    return this.called.of(this.shown(), this.inHand, this.hosts);
  }

  /** Balls that hold the bars (these, or all): for fitting. */
  blobs(ids?: readonly string[]): Blob[] {
    const out: Blob[] = [];
    for (const { bar } of this.built.values()) {
      if ((ids && !ids.includes(bar.id)) || this.staging?.hidden.has(bar.id)) continue;
      const posed = this.staging?.posed?.id === bar.id ? this.staging.posed : undefined;
      const { spine, radius } = bar.mesh;
      for (let i = 0; i < spine.length; i += 4) {
        const at = spineAt(bar.mesh, i);
        out.push({ at: posed ? posedAt(posed, at) : at, radius });
      }
    }
    return out;
  }

  dispose(): void {
    for (const [id, built] of this.built) this.remove(id, built);
    this.seated.dispose();
    this.moving.dispose();
    this.ends.dispose();
  }

  private build(bar: ViewBar): Built {
    const none = this.materials.fill("fill", "shade", "ink");
    const built: Built = {
      bar,
      surface: this.put(bar.mesh),
      rims: [undefined, undefined],
      stale: [false, false],
      ball: this.ballOf(bar.mesh),
      look: { fill: none, hull: none, rims: none, draft: none },
      group: new Group(),
      extra: [],
      cut: undefined,
    };
    this.built.set(bar.id, built);
    this.group.add(built.group);
    return built;
  }

  /** The same bar with another mesh. */
  private reshape(built: Built, bar: ViewBar): Built {
    built.bar = bar;
    built.surface = this.put(bar.mesh, built.surface);
    built.stale.fill(true);
    built.ball.copy(this.ballOf(bar.mesh));
    return built;
  }

  private put(mesh: TubeMesh, old?: Slot): Slot {
    this.isReady = false;
    const by = sub(mesh.origin, this.origin);
    const position = by.every((v) => v === 0) ? mesh.positions : mesh.positions.map((v, i) => v + by[i % 3]!);
    return this.surfaces.put({ position, normal: mesh.normals }, old);
  }

  private ballOf({ spine, origin, radius }: TubeMesh): Sphere {
    const by = sub(origin, this.origin);
    const box = new Box3();
    for (let i = 0; i < spine.length; i += 4) {
      box.expandByPoint(new Vector3(spine[i]! + by[0], spine[i + 1]! + by[1], spine[i + 2]! + by[2]));
    }
    // Its ends' points reach beyond the spine by less than their tube is wide, or little more.
    const ball = box.getBoundingSphere(new Sphere());
    ball.radius += 4 * radius;
    return ball;
  }

  private cut(built: Built): void {
    const { mesh } = built.bar;
    if (built.cut) {
      built.group.remove(built.cut);
      built.cut.geometry.dispose();
      built.cut = undefined;
    }
    if (!this.section) return;
    const outline = outlineOf(this.section, mesh);
    if (outline.length === 0) return;
    built.cut = lineObject(outline, this.materials.line("ink", 1.5, "solid"));
    built.group.add(built.cut);
  }

  /** Lines, colours and marks of what a bar is now; `isAlike`: in the way of before, on another tube. */
  private dress(built: Built, isAlike = false): void {
    if (!isAlike) this.reshaped = undefined;
    const { bar, group } = built;
    const isInHand = bar.id === this.inHand;
    built.look = lookOf(this.partOf(bar), bar.id === this.pointed, this.materials);
    this.isReady = false;
    for (const old of built.extra) {
      group.remove(old);
      old.geometry.dispose();
    }
    built.extra = marksOf(bar, isInHand, this.materials);
    if (built.extra.length > 0) group.add(...built.extra);
  }

  private partOf({ id, state }: ViewBar): Part {
    if (id === this.inHand) return "inHand";
    return state === "attention" ? "attention" : this.hosts.has(id) ? "host" : "plain";
  }

  private remove(id: string, { group, surface, rims, extra, cut }: Built): void {
    this.group.remove(group);
    for (const object of [...extra, ...(cut ? [cut] : [])]) object.geometry.dispose();
    this.surfaces.release(surface);
    for (const slot of rims) this.lines.release(slot);
    this.built.delete(id);
    this.isReady = false;
  }
}
