import { along, dist, lerp, ORIGIN, type Vec } from "../../core/space/index.ts";
import {
  axesOf,
  type Blob,
  type Camera,
  fitted,
  mixed,
  refocused,
  THREE_QUARTER,
  wrap180,
} from "./camera.ts";
import type { Around } from "./eye.ts";
import { seenAt } from "./project.ts";

/** A camera move (ms); short, and none where the device asks for less motion. */
const GLIDE = 150;
/** Least and greatest height of the picture (mm). */
const ZOOM: readonly [number, number] = [20, 100_000];

const NO_ROOM = { above: 0, below: 0 };

export interface MovesOf {
  /** The picture's size (CSS pixels). */
  readonly size: () => readonly [number, number];
  /** Bars (these, or all), and all that is no bar. */
  readonly bars: (ids?: readonly string[]) => readonly Blob[];
  readonly others: () => readonly Blob[];
  /** The place of a bar that is seen at a place of the picture. */
  readonly placeAt: (camera: Camera, x: number, y: number) => Vec | undefined;
  /** Covered above and below (CSS pixels), where what is fitted is not to be. */
  readonly room?: () => { readonly above: number; readonly below: number };
  /** A picture is due. */
  readonly ask: () => void;
}

/** Where the camera is, and how it gets from one place to the next. */
export class Moves {
  /** Left free above and below what is fitted, for names (CSS pixels). */
  margin = 0;
  /** What there is to see. */
  around: Around = { centre: ORIGIN, radius: 5000 };
  private camera: Camera = { ...THREE_QUARTER, target: [0, 0, 500], height: 3000, perspective: 1 };
  private glide: { readonly from: Camera; readonly to: Camera; readonly since: number } | undefined;
  private isShown = false;
  /** What the picture was fitted to of itself. */
  private fittedTo: "nothing" | "others" | "bars" = "nothing";
  private readonly calm = matchMedia("(prefers-reduced-motion: reduce)");
  private readonly of: MovesOf;

  constructor(of: MovesOf) {
    this.of = of;
  }

  /** The camera of the picture to be drawn now; asks for the next one while under way. */
  at(now: number): Camera {
    this.isShown = true;
    const { glide } = this;
    if (!glide) return this.camera;
    const t = Math.min(1, Math.max(0, (now - glide.since) / GLIDE));
    if (t === 1) this.rest(glide.to);
    else {
      this.camera = mixed(glide.from, glide.to, t * t * (3 - 2 * t));
      this.of.ask();
    }
    return this.camera;
  }

  /** Where it is in the picture shown. */
  get here(): Camera {
    return this.camera;
  }

  /** Where the view is going, so that what follows adds to it. */
  get aim(): Camera {
    return this.glide?.to ?? this.camera;
  }

  /** Goes there in a short move; at once before the first picture, or where the device asks for less motion. */
  go(to: Camera): void {
    if (!this.calm.matches && this.isShown) {
      this.glide = { from: this.camera, to, since: performance.now() };
    } else this.rest(to);
    this.of.ask();
  }

  /** What there is to see has changed; the first bars are fitted, and before there are any the first of the rest. */
  measure(): void {
    const bars = this.of.bars();
    const low: [number, number, number] = [Infinity, Infinity, Infinity];
    const high: [number, number, number] = [-Infinity, -Infinity, -Infinity];
    for (const { at, radius } of [...bars, ...this.of.others()]) {
      for (const k of [0, 1, 2] as const) {
        low[k] = Math.min(low[k], at[k] - radius);
        high[k] = Math.max(high[k], at[k] + radius);
      }
    }
    if (low[0] > high[0]) return;
    const centre = lerp(low, high, 0.5);
    this.around = { centre, radius: dist(centre, high) };
    const to = bars.length > 0 ? "bars" : "others";
    if (this.fittedTo === "bars" || this.fittedTo === to) return;
    this.fittedTo = to;
    this.rest(this.fitTo(undefined, this.camera));
  }

  /** The camera that shows these bars, or all; where there are none, all that is no bar. */
  fitTo(ids?: readonly string[], from: Camera = this.aim): Camera {
    const [w, h] = this.of.size();
    const wanted = this.of.bars(ids);
    const all = wanted.length > 0 ? wanted : [...this.of.bars(), ...this.of.others()];
    const { above, below } = this.of.room?.() ?? NO_ROOM;
    // a picture that is covered for the most part is fitted as if it were not
    const covered = above + below < h * 0.6 ? above + below : 0;
    const open = h - covered;
    const free = open - 2 * Math.min(this.margin, open / 8);
    const fit = fitted(from, all, w / free);
    const height = (fit.height * h) / free;
    const down = covered > 0 ? ((below - above) / 2) * (height / h) : 0;
    return { ...fit, height, target: along(fit.target, axesOf(fit).up, -down) };
  }

  /** Whether anything of these bars is within the picture. */
  isSeen(ids: readonly string[]): boolean {
    const size = this.of.size();
    return this.of.bars(ids).some(({ at }) => {
      const seen = seenAt(this.aim, at, size);
      return seen && seen.x > 0 && seen.y > 0 && seen.x < size[0] && seen.y < size[1];
    });
  }

  turn(right: number, up: number): void {
    const from = this.camera;
    // Leaving a straight view, the perspective comes in while the view already turns.
    const perspective = this.calm.matches ? 1 : Math.min(1, from.perspective + 0.15);
    this.set({ ...turned(from, right, up), perspective });
  }

  pan(dx: number, dy: number): void {
    const from = this.camera;
    const { right, up } = axesOf(from);
    const pixel = from.height / this.of.size()[1];
    this.set({ ...from, target: along(along(from.target, right, -dx * pixel), up, dy * pixel) });
  }

  /** Keeps what is at (x, y) of the picture there. */
  zoom(factor: number, x: number, y: number): void {
    const camera = factor > 1 ? this.onto(this.camera, x, y) : this.camera;
    const [w, h] = this.of.size();
    const { height } = closer(camera, factor);
    const { right, up } = axesOf(camera);
    const moved = (camera.height - height) / h;
    const target: Vec = along(along(camera.target, right, (x - w / 2) * moved), up, (h / 2 - y) * moved);
    this.set({ ...camera, height, target });
  }

  /** Closer to what is in the middle of the picture, or farther from it. */
  zoomMiddle(factor: number): void {
    const [w, h] = this.of.size();
    const from = factor > 1 ? this.onto(this.aim, w / 2, h / 2) : this.aim;
    this.go(closer(from, factor));
  }

  /** The same picture with its target as far off as the bar seen there: one comes up to that bar, not past it. */
  private onto(camera: Camera, x: number, y: number): Camera {
    const place = this.of.placeAt(camera, x, y);
    return place ? refocused(camera, place) : camera;
  }

  private set(camera: Camera): void {
    this.rest(camera);
    this.of.ask();
  }

  private rest(camera: Camera): void {
    this.glide = undefined;
    this.camera = camera;
  }
}

/** Turned by degrees: to the right, up. */
export const turned = (from: Camera, right: number, up: number): Camera => ({
  ...from,
  az: wrap180(from.az - right),
  el: Math.min(90, Math.max(-90, from.el + up)),
});

export const closer = (from: Camera, factor: number): Camera => ({
  ...from,
  height: Math.min(ZOOM[1], Math.max(ZOOM[0], from.height / factor)),
});
