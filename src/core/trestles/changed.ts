// biome-ignore-all lint/style/noNonNullAssertion: cards compared have as many bends, by the check before, and so as many marks; both edges have an entry a line and are indexed round their number
import type { Cope } from "../cope/index.ts";
import type { End } from "../job/types.ts";
import { rad } from "../numeric/index.ts";
import { freeEndOff } from "./place.ts";
import type { BarShape } from "./shape.ts";

/** What a person cuts, marks and sets by: a card's figures. Lengths mm, angles radians. */
export interface CardFigures {
  readonly id: string;
  readonly blank: number;
  /** From end A of the blank. */
  readonly marks: readonly number[];
  readonly shape: BarShape;
  readonly copes: Readonly<Record<End, Cope>>;
}

/** How far a card differs from the one before (mm). */
export interface CardChange {
  readonly id: string;
  /** New blank less old: more than 0, the old one is too short. */
  readonly blank: number;
  /** The mark that moved most. */
  readonly marks: number;
  /** The far end, from the angles and turns between the bends, straights between them too. */
  readonly shape: number;
  /** The edge of each cope on the unrolled template. Infinite where the joint is another one. */
  readonly copes: Readonly<Record<End, number>>;
  /** The greatest of all. */
  readonly most: number;
}

/** How far each card of a bar that is in both differs, whatever the bar's place in the car; the rest is new and infinite. */
export function cardChanges(
  before: ReadonlyMap<string, CardFigures>,
  after: readonly CardFigures[],
): readonly CardChange[] {
  return after.map((card): CardChange => {
    const old = before.get(card.id);
    if (old === card) return { id: card.id, blank: 0, marks: 0, shape: 0, copes: { A: 0, B: 0 }, most: 0 };
    const other = Number.POSITIVE_INFINITY;
    if (!old || old.shape.angles.length !== card.shape.angles.length)
      return {
        id: card.id,
        blank: other,
        marks: other,
        shape: other,
        copes: { A: other, B: other },
        most: other,
      };
    const blank = card.blank - old.blank;
    const marks = Math.max(0, ...card.marks.map((m, i) => Math.abs(m - old.marks[i]!)));
    const shape = card.shape.angles.length > 0 ? freeEndOff(card.shape, old.shape, "A") : 0;
    const copes = { A: edgeMoved(old.copes.A, card.copes.A), B: edgeMoved(old.copes.B, card.copes.B) };
    return {
      id: card.id,
      blank,
      marks,
      shape,
      copes,
      most: Math.max(Math.abs(blank), marks, shape, copes.A, copes.B),
    };
  });
}

/**
 * How far the edge of a cope moved on the unrolled template, each counted from its own long point: the greatest way
 * from a point of one edge to the nearest of the other, both ways and both walls (mm). Where one misses the host and
 * the other does not, it is infinite if that arc is wider than 2°.
 */
export function edgeMoved(a: Cope, b: Cope): number {
  if (a.kind !== b.kind || a.onto.join() !== b.onto.join()) return Number.POSITIVE_INFINITY;
  if (a.kind === "square") return 0;
  return Math.max(
    wallMoved(a.outer, a.least, b.outer, b.least, a.outerRadius),
    wallMoved(a.bore, a.least, b.bore, b.least, a.boreRadius),
  );
}

function wallMoved(a: Float64Array, la: number, b: Float64Array, lb: number, rho: number): number {
  const lines = a.length;
  const step = rho * rad(360 / lines);
  const lost = a.reduce((n, v, i) => n + (Number.isNaN(v) !== Number.isNaN(b[i]!) ? 1 : 0), 0);
  if (lost > 2) return Number.POSITIVE_INFINITY;
  const one = a.map((v) => v - la);
  const other = b.map((v) => v - lb);
  return Math.max(farthest(one, other, step), farthest(other, one, step));
}

/** Lines beside a point among which the nearest point of the other edge is sought. */
const BESIDE = 12;

function farthest(from: Float64Array, to: Float64Array, step: number): number {
  const lines = from.length;
  let most = 0;
  for (let i = 0; i < lines; i++) {
    const v = from[i]!;
    if (Number.isNaN(v)) continue;
    let nearest = Infinity;
    for (let k = -BESIDE; k < BESIDE; k++) {
      const p = to[(i + k + lines) % lines]!;
      const q = to[(i + k + 1 + lines) % lines]!;
      if (Number.isNaN(p) || Number.isNaN(q)) continue;
      nearest = Math.min(nearest, toSegment(k * step, p - v, (k + 1) * step, q - v));
      if (nearest <= most) break;
    }
    if (nearest > most && nearest < Infinity) most = nearest;
  }
  return most;
}

/** From the origin to the segment (x1, y1)–(x2, y2). */
function toSegment(x1: number, y1: number, x2: number, y2: number): number {
  const [dx, dy] = [x2 - x1, y2 - y1];
  const t = Math.min(1, Math.max(0, -(x1 * dx + y1 * dy) / (dx * dx + dy * dy)));
  return Math.hypot(x1 + t * dx, y1 + t * dy);
}
