// biome-ignore-all lint/style/noNonNullAssertion: a direction has as many unknowns as was asked for, three or six, and each row as many numbers.
import type { End } from "../../job/types.ts";
import type { ResolvedBar } from "../../layout/types.ts";
import { flat, maximise } from "../../numeric/index.ts";
import { cross, dot, lerp, scale, sub, unit, type Vec } from "../../space/index.ts";
import type { Contact } from "./contacts.ts";
import { type Lip, lipsOf } from "./lips.ts";

/** A small rigid move: turn by `turn` (radians, right-handed) about `about`, and shift by `shift` (mm). */
export interface Twist {
  readonly shift: Vec;
  readonly turn: Vec;
  readonly about: Vec;
}

export interface Mobility {
  readonly contacts: readonly Contact[];
  /** Directions (length 1) in which the bar may leave straight, most open first. */
  readonly slides: readonly Vec[];
  /** Small moves with a turn in them, most open first; sought only where nothing slides. */
  readonly tips: readonly Twist[];
  /** No move at all, to first order: proved for rigid hosts and copes cut true. */
  readonly locked: boolean;
  /** What holds it, where it neither slides nor tips. */
  readonly lips: readonly Lip[];
  /** Ends that land on no bar. */
  readonly open: readonly End[];
}

/** A value of a programme below this is none: rows have length about 1, the box is 1 wide. */
const MOVES = 1e-6;

/**
 * Whether a seated bar is free to leave, to first order (geometry of form closure; F. Reuleaux 1876; linear
 * programmes over rigid twists as in A. S. Goldman & A. W. Tucker and Lakshminarayana 1978).
 *
 * A small move (shift v, turn w about the bar's middle c) carries the contact at pᵢ by v + w × (pᵢ − c); it does not
 * enter its host when nᵢ·(v + w × (pᵢ − c)) ≥ 0. The moves that enter no host form a cone.
 * - Straight moves (w = 0): for a straight host the half-space nᵢ·(x − pᵢ) ≤ 0 holds all of it near the contact, so
 *   a direction of the cone is good for any distance as far as these contacts go. Copes that wrap half round their
 *   host (equal diameters: the lips reach ±90°, where nᵢ is square to the bar) leave of each host's plane only the
 *   way straight out along the bar and the ways along the host; a smaller bar's lips stop at asin(r/R) and leave a
 *   wedge of 90° − asin(r/R) on either side. Both ends' cones must meet: parallel hosts meet along the hosts,
 *   converging ones on the side where they part.
 * - If the cone holds nothing but 0, no motion whatever starts from the seat: the contacts sampled are among those
 *   there are, and more contacts only take away. That is a proof, for hosts that do not give and cuts that are true.
 * The cone is searched with the most of the mean opening and of each coordinate, both ways: it is {0} exactly when
 * none of the latter is above 0. Units: turns are made lengths by the bar's half length. Each answer is checked
 * against every contact here, whatever the solver says.
 */
export function mobilityOf(bar: ResolvedBar, contacts: readonly Contact[]): Mobility {
  const open = (["A", "B"] as const).filter((end) => bar.seat[end].kind !== "on");
  const c = lerp(bar.centreline.start, bar.centreline.finish, 0.5);
  const half = bar.centreline.length / 2;
  const straight = contacts.map((k) => [...k.normal]);
  const slides = directions(straight, 3).found.map((x) => unit([x.x[0]!, x.x[1]!, x.x[2]!]));
  if (slides.length > 0)
    return { contacts, slides: distinct(slides), tips: [], locked: false, lips: [], open };
  const rows = contacts.map((k) => [...k.normal, ...scale(cross(sub(k.at, c), k.normal), 1 / half)]);
  const { found, held } = directions(rows, 6);
  const tips = found.map(({ x }): Twist => {
    const size = Math.hypot(...x);
    const k = 1 / size;
    return {
      shift: [x[0]! * k, x[1]! * k, x[2]! * k],
      turn: [(x[3]! * k) / half, (x[4]! * k) / half, (x[5]! * k) / half],
      about: c,
    };
  });
  return { contacts, slides: [], tips, locked: tips.length === 0, lips: lipsOf(contacts, held), open };
}

interface Found {
  readonly x: readonly number[];
  /** Mean opening over the contacts, per unit of move. */
  readonly opening: number;
}

/** Moves that the rows leave open, and the rows that hold back the answer of any of the programmes. */
function directions(
  rows: readonly (readonly number[])[],
  n: number,
): { readonly found: readonly Found[]; readonly held: ReadonlySet<number> } {
  const unknowns = Array.from({ length: n }, (_, k) => k);
  const box = unknowns.map(() => 1);
  const atLeast = rows.map(() => 0);
  const all = flat(rows, n);
  const mean = unknowns.map((k) => rows.reduce((sum, row) => sum + row[k]!, 0) / Math.max(1, rows.length));
  const axes = unknowns.flatMap((k) => [1, -1].map((sign) => unknowns.map((j) => (j === k ? sign : 0))));
  const found: Found[] = [];
  const held = new Set<number>();
  const see = (x: readonly number[]): void => {
    const size = Math.hypot(...x);
    if (size < 1e-3) return;
    let sum = 0;
    for (let at = 0; at < all.length; at += n) {
      let along = 0;
      for (let k = 0; k < n; k++) along += all[at + k]! * x[k]!;
      along /= size;
      if (along < -1e-8) return;
      sum += along;
    }
    found.push({ x, opening: sum / Math.max(1, rows.length) });
  };
  for (const c of [mean, ...axes]) {
    const solved = maximise({ c, rows: all, atLeast, box });
    if (!solved.ok) continue;
    for (const [i, force] of solved.held) if (force > 1e-6) held.add(i);
    if (solved.value >= MOVES) see(solved.x);
  }
  // Where the cone is wide, the plain ways out are in it: the mean normal, and the car's own axes.
  if (found.length > 0) for (const x of [mean, ...axes]) see(x);
  return { found: found.sort((a, b) => b.opening - a.opening), held };
}

function distinct(dirs: readonly Vec[]): readonly Vec[] {
  const out: Vec[] = [];
  for (const d of dirs) if (!out.some((o) => dot(o, d) > 0.999)) out.push(d);
  return out;
}
