// biome-ignore-all lint/style/noNonNullAssertion: x has an entry for each of UNKNOWNS, edges and at one a reading, and RIM one for each degree
import type { SawCut } from "../cope/index.ts";
import { adjusted, standardised, suspectAmong } from "../estimate/index.ts";
import { deg, type Rows, rad, sinCosDeg } from "../numeric/index.ts";
import type { Vec } from "../space/index.ts";
import { edgeAt, type FiguredJoint, RIM, type TrueJoint, trueClearance } from "./joint.ts";

/** One gap read at the outside of a seated joint. */
export interface GapReading {
  /** Degrees from the zero line, counter-clockwise looking at the cut end, as the template counts them. */
  readonly phi: number;
  /** Millimetres; 0 where it touches. */
  readonly gap: number;
}

/**
 * How gaps were read. "square": the thickest feeler that goes in at the outside of the tube, so the shortest way from
 * the cut edge to the host. "along": a rule or a taper laid along the bar, from the edge to the host.
 */
export type GapWay = "square" | "along";

/** What gaps say of a joint. Angles radians, lengths mm; conventions as in SawCut. */
export interface GapsRead {
  readonly joint: TrueJoint;
  readonly sd: TrueJoint;
  /** Of notch, clock, offset and stand-off, in this order. */
  readonly covariance: Rows;
  /** Each reading: what it would be in the joint found, and how far off, in standard deviations of its own residual (null: nothing checks it). */
  readonly readings: readonly {
    readonly phi: number;
    readonly read: number;
    readonly computed: number;
    readonly normalized: number | null;
  }[];
  /** The reading that fits worst, by index, where that is beyond the critical value. */
  readonly suspect?: number;
  /** That reading was so far out that the others alone gave the answer. */
  readonly leftOut?: true;
  /** Least distance between edge and host all round (mm): 0 for a bar pushed home. */
  readonly touches: number;
}

export type GapProblem =
  /** Fewer than four readings at different places. */
  | { readonly why: "few"; readonly places: number }
  /** The places read leave an angle, a roll or a shift free. */
  | { readonly why: "loose"; readonly free: readonly (keyof TrueJoint)[] }
  /** No joint gives such gaps. */
  | { readonly why: "none" }
  /** The first cut left no edge there to read at. */
  | { readonly why: "no edge"; readonly phi: number };

export type GapsOutcome =
  | { readonly ok: true; readonly read: GapsRead }
  | { readonly ok: false; readonly problem: GapProblem };

const UNKNOWNS = ["notch", "clock", "offset", "standsOff"] as const;

/** Readings closer together than this are one place (degrees). */
const SAME_MARK = 5;

/** How far each unknown could be off at the most: 40°, a third of a turn, 20 mm, 60 mm. Beyond it is not told. */
const FAR = [rad(40), rad(120), 20, 60] as const;

const jointOfX = (x: readonly number[]): TrueJoint => ({
  notch: x[0]!,
  clock: x[1]!,
  offset: x[2]!,
  standsOff: x[3]!,
});

/**
 * The true angle, roll, side miss and stand-off of a joint, from the gaps round it while the bar is pushed home with
 * a first cut.
 *
 * The model: the bar is held where it belongs but for standing off along its own axis by d, unknown. Its cut edge at
 * φ is (ρ cos φ, ρ sin φ, −b(φ) − d), b the saw's curve of the cut made (`sawBack`). The host lies where a saw cut of
 * notch ν, clock κ and offset e would be right. A feeler reads the distance from that edge to the host's outside;
 * read along the bar, the way to it along the wall line (gap over the sine at which the line meets the host, followed
 * to the host itself). Least squares for ν, κ, e, d from the joint as figured; nothing is believed beforehand.
 * Units: mm; `sd` is one standard deviation of a reading. `made.centre` counts from the landing as `joint.cut.centre`.
 * Range: four marks or more, spread; fewer, or marks that leave something free, are a problem, not a guess. One saw
 * and one host stay what they are. With four marks nothing checks them; with six or more one that is 20 of its sd out
 * by the others, a slip of unit say, is left out of the answer.
 * Accuracy: tests recover joints of known shape within the ± that is told (300 seeded trials).
 */
export function readGaps(
  joint: FiguredJoint,
  made: SawCut,
  readings: readonly GapReading[],
  how: { readonly sd: number; readonly way?: GapWay },
): GapsOutcome {
  const all = fitGaps(joint, made, readings, how);
  const isOut = all.ok ? all.read.suspect !== undefined : all.problem.why === "none";
  if (!isOut || readings.length < SPARE) return all;
  const without = readings.flatMap((_, out) => {
    const rest = fitGaps(
      joint,
      made,
      readings.filter((_, i) => i !== out),
      how,
    );
    return rest.ok && rest.read.suspect === undefined ? [{ out, rest: rest.read }] : [];
  });
  const best = without.reduce<(typeof without)[number] | undefined>(
    (a, b) => (a && misfits(a.rest) <= misfits(b.rest) ? a : b),
    undefined,
  );
  if (!best) return all;
  const { phi, gap: read } = readings[best.out]!;
  const computed = gapIn(joint, made, best.rest.joint, phi, how.way);
  if (computed === undefined || Math.abs(computed - read) < GROSS * how.sd) return all;
  const list = [...best.rest.readings];
  list.splice(best.out, 0, { phi, read, computed, normalized: (computed - read) / how.sd });
  return { ok: true, read: { ...best.rest, readings: list, suspect: best.out, leftOut: true } };
}

/** So many readings leave two to spare, so that the others can say which one is out. */
const SPARE = 6;

/** A reading so many of its standard deviations out is no reading of this joint: it must not pull the others' answer. */
const GROSS = 20;

const misfits = ({ readings }: GapsRead): number =>
  readings.reduce((sum, r) => sum + (r.normalized ?? 0) ** 2, 0);

/** The gap that this cut leaves at φ (degrees) in a joint found; undefined where it left no edge. */
function gapIn(
  joint: FiguredJoint,
  made: SawCut,
  real: TrueJoint,
  phi: number,
  way: GapWay = "square",
): number | undefined {
  const [sin, cos] = sinCosDeg(phi);
  const edge = edgeAt(made, joint.radii[0], cos, sin, real.standsOff);
  return edge && gapTo[way](trueClearance(joint, real), edge);
}

function fitGaps(
  joint: FiguredJoint,
  made: SawCut,
  readings: readonly GapReading[],
  { sd, way = "square" }: { readonly sd: number; readonly way?: GapWay },
): GapsOutcome {
  const places = distinct(readings.map((r) => r.phi));
  if (places < 4) return { ok: false, problem: { why: "few", places } };
  const rho = joint.radii[0];
  const edges = readings.map(({ phi }) => {
    const [sin, cos] = sinCosDeg(phi);
    return edgeAt(made, rho, cos, sin, 0);
  });
  const none = edges.indexOf(undefined);
  if (none >= 0) return { ok: false, problem: { why: "no edge", phi: readings[none]!.phi } };
  const gap = gapTo[way];
  const computed = (x: readonly number[]): number[] => {
    const real = jointOfX(x);
    const clear = trueClearance(joint, real);
    return edges.map((e) => gap(clear, [e![0], e![1], e![2] - real.standsOff]));
  };
  const { cut } = joint;
  const start = [cut.notch, cut.clock, cut.offset, seatedAt(joint, made, undefined, 30)];
  const fit = adjusted(
    {
      residuals: (x) => computed(x).map((g, i) => g - readings[i]!.gap),
      sd: readings.map(() => sd),
      far: FAR,
    },
    start,
  );
  if (!fit) return { ok: false, problem: { why: "none" } };
  const { covariance, loose } = fit;
  if (loose.length > 0) return { ok: false, problem: { why: "loose", free: loose.map((j) => UNKNOWNS[j]!) } };
  const at = computed(fit.x);
  const list = readings.map((r, i) => {
    const { normalized } = standardised(fit, i);
    return { phi: r.phi, read: r.gap, computed: at[i]!, normalized };
  });
  const suspect = suspectAmong(list.map((r) => r.normalized));
  const real = upright(jointOfX(fit.x), cut.clock);
  const sds = covariance.map((row, j) => Math.sqrt(row[j]!));
  return {
    ok: true,
    read: {
      joint: real,
      sd: jointOfX(sds),
      covariance,
      readings: list,
      ...(suspect === undefined ? {} : { suspect }),
      touches: leastClearance(joint, made, real, 3),
    },
  };
}

/** How many of some angles (degrees) are different places. */
function distinct(phis: readonly number[]): number {
  const kept: number[] = [];
  for (const phi of phis) {
    const apart = kept.every((k) => Math.abs(((phi - k + 540) % 360) - 180) >= SAME_MARK);
    if (apart) kept.push(((phi % 360) + 360) % 360);
  }
  return kept.length;
}

/**
 * Along the bar, outward from the edge to the host: Newton's steps on the clearance; where the line passes the host
 * by, or grazes it, to where it comes nearest.
 */
function alongBar(clear: (p: Vec) => number, edge: Vec): number {
  let z = edge[2];
  const h = 1e-4;
  for (let i = 0; i < 60; i++) {
    const f = clear([edge[0], edge[1], z]);
    const slope = (clear([edge[0], edge[1], z + h]) - clear([edge[0], edge[1], z - h])) / (2 * h);
    // Where the line runs level with the host's outside it is as near as it comes.
    if (slope > -1e-3) break;
    const step = Math.max(-20, Math.min(20, -f / slope));
    z += step;
    if (Math.abs(step) < 1e-10) break;
  }
  return z - edge[2];
}

/** From the edge to the host, as a gap is read in each way. */
const gapTo: Readonly<Record<GapWay, (clear: (p: Vec) => number, edge: Vec) => number>> = {
  square: (clear, edge) => clear(edge),
  along: alongBar,
};

/** Least distance between the cut edge, outside and bore, and the host, looked at every `every` degrees (mm). */
function leastClearance(joint: FiguredJoint, made: SawCut, real: TrueJoint, every: number): number {
  const clear = trueClearance(joint, real);
  let least = Infinity;
  for (const rho of joint.radii) {
    for (let i = 0; i < RIM.length; i += every) {
      const edge = edgeAt(made, rho, RIM[i]![0], RIM[i]![1], real.standsOff);
      if (edge) least = Math.min(least, clear(edge));
    }
  }
  return least;
}

/**
 * How far a bar with the cut `made` stands off in the joint `real` when it is pushed home (mm), to the edge's lines
 * every `every` degrees; in the joint as figured where none is given.
 */
export function seatedAt(
  joint: FiguredJoint,
  made: SawCut,
  real?: Omit<TrueJoint, "standsOff">,
  every = 1,
): number {
  const { notch, clock, offset } = real ?? joint.cut;
  const at = (standsOff: number): number =>
    leastClearance(joint, made, { notch, clock, offset, standsOff }, every);
  // Backing off a bar opens its joint: bisect between far inside and far off.
  let [low, high] = [-60, 120];
  while (high - low > 1e-9) {
    const middle = (low + high) / 2;
    if (at(middle) < 0) low = middle;
    else high = middle;
  }
  return (low + high) / 2;
}

/** A negative notch angle is the same joint seen with the heel on the other side. */
function upright(x: TrueJoint, clock: number): TrueJoint {
  const real = x.notch >= 0 ? x : { ...x, notch: -x.notch, clock: x.clock + Math.PI, offset: -x.offset };
  const turns = Math.round(deg(real.clock - clock) / 360);
  return { ...real, clock: real.clock - turns * 2 * Math.PI };
}
