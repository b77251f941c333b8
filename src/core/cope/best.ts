// biome-ignore-all lint/style/noNonNullAssertion: i runs below LINES, the length of every curve and of ROUND, or below the length of columns made from the same rows; walls holds the outside first; the search hands back as many numbers as it was given.
import { nelderMead, rad, sinCosDeg } from "../numeric/index.ts";
import type { JointHost } from "./joint.ts";
import { LINES } from "./round.ts";
import { cutLines, cutOnto, FEATHER, ROUND, type SawCut, type Settled, settle, type Wall } from "./saw.ts";

/** What the shop's notcher can do (mm, radians). */
export interface Notcher {
  /** Radii of the saws at hand; empty: any. */
  readonly saws: readonly number[];
  /** Steepest notch angle off square. */
  readonly steepest: number;
}

/** A cut that leaves less than this is exact: no saw or eye tells it from none (mm). */
export const EXACT = 1e-6;

/** Lines between those that the search looks at, in degrees; the answer is settled on all of them. */
const COARSE = 5;

/**
 * The best single saw cut for a joint: of all cuts that take no metal that the joint needs, the one that leaves the
 * least standing at its highest place, over saw size, notch angle, clock and side offset.
 *
 * Onto one straight host, with a saw of its size and an angle that the notcher reaches, the host's own axis is exact
 * and nothing is searched. Else a downhill simplex search (Nelder and Mead 1965) from each host's axis, from the
 * limit of the notcher where that axis lies beyond it, for each saw that can span what must be cut; the search is local:
 * brute force over a grid checks it in the tests. Undefined where no saw at hand spans that.
 */
export function bestCut(
  hosts: readonly JointHost[],
  walls: readonly Wall[],
  notcher: Notcher,
): Settled | undefined {
  const outside = walls[0]!.rho;
  // A rim that is needed all round must be spanned all round.
  const whole = neededAllRound(walls);
  const starts = hosts.map((h) => cutOnto(h));
  // Of several hosts one may be all that the end meets.
  for (const own of starts) {
    const atHand = notcher.saws.length === 0 || notcher.saws.some((r) => Math.abs(r - own.radius) < 1e-9);
    if (atHand && own.notch <= notcher.steepest + 1e-9 && matches(cutLines(own), walls)) return exactFit(own);
  }
  const radii = notcher.saws.length > 0 ? notcher.saws : [...new Set(hosts.map((h) => h.radius))];
  let best: Settled | undefined;
  for (const radius of radii) {
    if (whole && radius < outside - 1e-9) continue;
    for (const start of starts) {
      const fit = settle(search({ ...start, radius }, walls, notcher.steepest), walls);
      if (fit && (!best || fit.most < best.most - 1e-9)) best = fit;
    }
  }
  return best;
}

/** Whether cuts, given by how far back they go on each line, follow the curve at every line of both walls. */
export function matches(
  cutAt: (rho: number, cosPhi: number, sinPhi: number) => number,
  walls: readonly Wall[],
): boolean {
  return walls.every(({ rho, back, square }) =>
    back.every((b, i) => {
      const [c, s] = ROUND[i]!;
      return Number.isNaN(b) || Math.abs(b - cutAt(rho, c, s)) * square[i]! < EXACT;
    }),
  );
}

const neededAllRound = (walls: readonly Wall[]): boolean =>
  walls.every(({ back }) => !back.some(Number.isNaN));

/** A cut that leaves nothing. */
export const exactFit = (cut: SawCut): Settled => ({ cut, most: 0, mostAt: 0, standsOff: 0 });

/** Local search over notch angle (signed: past square the heel changes sides), clock and offset. */
function search(start: SawCut, walls: readonly Wall[], steepest: number): SawCut {
  const lines = coarse(walls);
  const limit = steepest;
  const aside = neededAllRound(walls) ? Math.max(0, start.radius + FEATHER - walls[0]!.rho) : Infinity;
  const clip = (notch: number): number => Math.min(limit, Math.max(-limit, notch));
  const cost = ([notch, clock, offset]: readonly number[]): number => {
    const over = Math.max(Math.abs(notch!) - limit, (Math.abs(offset!) - aside) / start.radius);
    return (
      highest(start.radius, clip(notch!), clock!, Math.min(aside, Math.max(-aside, offset!)), lines) +
      (over > 0 ? 100 * over : 0)
    );
  };
  const from = [clip(start.notch), start.clock, start.offset];
  const first = nelderMead(cost, from, [rad(3), rad(6), 1.5], { iterations: 160, width: 1e-4 });
  // Once more from where it stopped: a simplex may have collapsed on a crease of a greatest-of-many function.
  const again = nelderMead(cost, first.at, [rad(1), rad(2), 0.5], { iterations: 160, width: 1e-5 });
  const [notch, clock, offset] = again.at;
  const held = Math.min(aside, Math.max(-aside, offset!));
  return upright({ ...start, notch: clip(notch!), clock: clock!, offset: held, centre: 0 });
}

/** A negative notch angle is the same cut seen with the heel on the other side. */
const upright = (cut: SawCut): SawCut =>
  cut.notch >= 0 ? cut : { ...cut, notch: -cut.notch, clock: cut.clock + Math.PI, offset: -cut.offset };

interface Lines {
  readonly rho: Float64Array;
  readonly cos: Float64Array;
  readonly sin: Float64Array;
  readonly back: Float64Array;
  readonly square: Float64Array;
  /** Room for the sum at hand. */
  readonly left: Float64Array;
}

function coarse(walls: readonly Wall[]): Lines {
  const rows: [number, number, number, number, number][] = [];
  for (const { rho, back, square } of walls) {
    for (let i = 0; i < LINES; i += COARSE) {
      if (Number.isNaN(back[i]!)) continue;
      const [s, c] = sinCosDeg(i);
      rows.push([rho, c, s, back[i]!, square[i]!]);
    }
  }
  const column = (k: number): Float64Array => Float64Array.from(rows, (r) => r[k]!);
  return {
    rho: column(0),
    cos: column(1),
    sin: column(2),
    back: column(3),
    square: column(4),
    left: new Float64Array(rows.length),
  };
}

/** What a cut leaves at its highest place, square to the host, once it is settled on these lines (mm). */
function highest(radius: number, notch: number, clock: number, offset: number, lines: Lines): number {
  const c = Math.cos(clock);
  const s = Math.sin(clock);
  const sinN = Math.sin(notch);
  const cosN = Math.cos(notch);
  const { rho, cos, sin, back, square, left } = lines;
  let shift = Infinity;
  let beyond = 0;
  for (let i = 0; i < rho.length; i++) {
    const across = rho[i]! * (sin[i]! * c - cos[i]! * s) - offset;
    const deep = radius * radius - across * across;
    // Where the saw passes a line by, the farther past the worse, so that the search finds its way back.
    if (deep < 0) beyond = Math.max(beyond, Math.abs(across) - radius - FEATHER);
    const toHeel = rho[i]! * (cos[i]! * c + sin[i]! * s);
    const g = back[i]! - (Math.sqrt(Math.max(0, deep)) + toHeel * sinN) / cosN;
    left[i] = g;
    shift = Math.min(shift, g + FEATHER / square[i]!);
  }
  let most = 0;
  for (let i = 0; i < rho.length; i++) most = Math.max(most, (left[i]! - shift) * square[i]!);
  return most + 1000 * beyond;
}
