import type { CopeOf } from "./cope.ts";
import type { HostOf, JointOf } from "./joint.ts";
import { leastOf } from "./march.ts";

import { across, go, inner, minus, size, times, toOne } from "./vec.ts";

const DEG = 180 / Math.PI;
/** Metal thinner than this, square to the host, counts neither as needed nor as in the way (as the notcher room says). */
const FEATHER = 0.05;

/** A straight cut: radius (mm), degrees off square, φ of the heel (degrees), side offset and hole centre's back (mm). */
export interface CutOf {
  radius: number;
  notch: number;
  clock: number;
  offset: number;
  centre: number;
}

/** Back of a saw's surface at radius ρ, φ' degrees from the heel (geometry.md, "A cope"); NaN where it passes by. */
export function sawBack(cut: CutOf, rho: number, fromHeel: number, touch = 0.001): number {
  const [c, s] = [Math.cos(fromHeel / DEG), Math.sin(fromHeel / DEG)];
  const side = rho * s - cut.offset;
  const deep = cut.radius ** 2 - side ** 2;
  if (deep < 0 && Math.abs(side) > cut.radius + touch) return Number.NaN;
  const gamma = (90 - cut.notch) / DEG;
  return (Math.sqrt(Math.max(0, deep)) + rho * c * Math.cos(gamma)) / Math.sin(gamma) + cut.centre;
}

/** The cut on a host's own axis. */
export function cutOn(host: HostOf, joint: JointOf): CutOf {
  const { u, e0, e90, landing } = joint.frame;
  const d = inner(host.dir, u) > 0 ? times(host.dir, -1) : host.dir;
  const heel = toOne(across(d, u));
  const q = minus(host.at, landing);
  const aside = inner(q, [
    u[1] * heel[2] - u[2] * heel[1],
    u[2] * heel[0] - u[0] * heel[2],
    u[0] * heel[1] - u[1] * heel[0],
  ]);
  // along the host's axis to where it is level with the bar's axis, seen from the side
  const t = -inner(q, heel) / inner(d, heel);
  return {
    radius: host.H,
    notch: 90 - host.gamma * DEG,
    clock: Math.atan2(inner(heel, e90), inner(heel, e0)) * DEG,
    offset: Math.abs(aside) < 1e-9 ? 0 : aside,
    centre: -inner(go(q, d, t), u),
  };
}

/** Whether every place where the end meets its host lies on the host's straight run on for ever. */
export function seatsOnAxis(cope: CopeOf, host: HostOf): boolean {
  const { joint } = cope;
  for (const [rho, curve] of [
    [joint.rho, cope.outside],
    [joint.bore, cope.boreLine],
  ] as const) {
    for (let i = 0; i < curve.length; i += 6) {
      const b = curve[i]!;
      if (Number.isNaN(b)) continue;
      const v = minus(joint.at(b, rho, i / 2), host.at);
      if (Math.abs(size(across(v, host.dir)) - host.H) > 2e-3) return false;
    }
  }
  return true;
}

export interface Wall {
  rho: number;
  back: number[];
  sine: number[];
}

/** The walls at every whole degree, with the sine at which each line meets the host. */
export function wallsOf(cope: CopeOf): Wall[] {
  const { joint } = cope;
  return (
    [
      [joint.rho, cope.outside],
      [joint.bore, cope.boreLine],
    ] as const
  ).map(([rho, curve]) => {
    const back = Array.from({ length: 360 }, (_, i) => curve[2 * i]!);
    const sine = back.map((b, i) => {
      const h = 1e-4;
      return Number.isNaN(b)
        ? Number.NaN
        : Math.min(1, Math.max(1e-9, joint.solid(joint.at(b + h, rho, i)) / h));
    });
    return { rho, back, sine };
  });
}

export interface FitOf {
  centre: number;
  most: number;
  mostAt: number;
  standsOff: number;
  gaps: number[];
  gap: number;
  gapAt: number;
}

/** A cut moved outward until it takes no metal that the joint needs, and what it then leaves (all square to the host). */
export function settled(cut: CutOf, walls: Wall[], joint: JointOf, every = 1): FitOf | undefined {
  let shift = Infinity;
  const left = walls.map((w) => new Array<number>(w.back.length).fill(Number.NaN));
  for (const [k, { rho, back, sine }] of walls.entries())
    for (let i = 0; i < back.length; i += every) {
      if (Number.isNaN(back[i]!)) continue;
      const out = back[i]! - sawBack({ ...cut, centre: 0 }, rho, i - cut.clock, FEATHER);
      if (Number.isNaN(out)) return undefined;
      left[k]![i] = out;
      shift = Math.min(shift, out + FEATHER / sine[i]!);
    }
  let [most, mostAt, standsOff] = [0, 0, -Infinity];
  for (const [k, { sine }] of walls.entries())
    for (let i = 0; i < sine.length; i += every) {
      const l = left[k]![i]! - shift;
      if (l * sine[i]! > most) [most, mostAt] = [l * sine[i]!, i];
      if (l - FEATHER / sine[i]! > standsOff) standsOff = l - FEATHER / sine[i]!;
    }
  if (every > 1) return { centre: shift, most, mostAt, standsOff, gaps: [], gap: 0, gapAt: 0 };
  const gaps = gapsOf({ ...cut, centre: shift }, joint, walls, standsOff, FEATHER);
  const gapAt = gaps.reduce((at, g, i) => (g > gaps[at]! ? i : at), 0);
  return { centre: shift, most, mostAt, standsOff, gaps, gap: gaps[gapAt]!, gapAt };
}

/** From the cut edge of the outside, the bar `standsOff` from its place, to the host: at every whole degree of φ. */
function gapsOf(cut: CutOf, joint: JointOf, walls: Wall[], standsOff: number, touch: number): number[] {
  return walls[0]!.back.map((b, i) => {
    const edge = sawBack(cut, joint.rho, i - cut.clock, touch);
    if (Number.isNaN(b) || Number.isNaN(edge)) return 0;
    return Math.max(0, joint.solid(joint.at(edge + standsOff, joint.rho, i)));
  });
}

/** The least that any single cut leaves standing, by a pattern search from every host's axis with every saw. */
export function leastLeft(cope: CopeOf, walls: Wall[], saws: number[], steepest: number): number {
  const { joint } = cope;
  const radii = saws.length > 0 ? saws.map((d) => d / 2) : joint.hosts.map((h) => h.H);
  const whole = walls.every((w) => !w.back.some(Number.isNaN));
  let best = Infinity;
  for (const radius of new Set(radii)) {
    if (radius < joint.rho - 1e-9) continue;
    const aside = whole ? Math.max(0, radius + FEATHER - joint.rho) : Infinity;
    for (const host of joint.hosts) {
      const cost = ([notch, clock, offset]: number[]): number => {
        if (Math.abs(notch!) > steepest || Math.abs(offset!) > aside) return Infinity;
        const cut = { radius, notch: notch!, clock: clock!, offset: offset!, centre: 0 };
        return settled(cut, walls, joint, 6)?.most ?? Infinity;
      };
      const own = cutOn(host, joint);
      let at = [Math.min(steepest, own.notch), own.clock, Math.min(aside, Math.max(-aside, own.offset))];
      let value = cost(at);
      let step = [4, 8, 2];
      for (let round = 0; round < 60 && step[0]! > 0.02; round++) {
        let bettered = false;
        for (const way of WAYS) {
          const next = at.map((x, k) => x + way[k]! * step[k]!);
          const v = cost(next);
          if (v < value - 1e-9) {
            [at, value, bettered] = [next, v, true];
          }
        }
        if (!bettered) step = step.map((x) => x / 2);
      }
      const [notch, clock, offset] = at as [number, number, number];
      const fine = settled({ radius, notch, clock, offset, centre: 0 }, walls, joint);
      if (fine && fine.most < best) best = fine.most;
    }
  }
  return best;
}

const WAYS = [-1, 0, 1]
  .flatMap((a) => [-1, 0, 1].flatMap((b) => [-1, 0, 1].map((c) => [a, b, c])))
  .filter((w) => w.some((x) => x !== 0));

/** How much the bar must shorten for the second cut to clean up the first (geometry.md, "Notching toward …"). */
export function overCut(first: number, second: number, cut: CutOf, radii: number[]): number {
  const [before, after] = [
    { ...cut, notch: first, centre: 0 },
    { ...cut, notch: second, centre: 0 },
  ];
  return Math.max(
    0,
    ...radii.map((rho) => greatestRound((phi) => sawBack(before, rho, phi) - sawBack(after, rho, phi))),
  );
}

/** The greatest of a function of φ (degrees), NaN where it has no value: beside those it may rise without bound. */
function greatestRound(f: (phi: number) => number): number {
  const low = (phi: number): number => {
    const v = f(phi);
    return Number.isNaN(v) ? Infinity : -v;
  };
  const at = Array.from({ length: 360 }, (_, i) => low(i));
  let least = Infinity;
  at.forEach((v, i) => {
    if (v === Infinity || v > at[(i + 359) % 360]! || v > at[(i + 1) % 360]!) return;
    least = Math.min(least, v, low(leastOf(low, i - 1, i, 1e-6)), low(leastOf(low, i, i + 1, 1e-6)));
  });
  return -least;
}

export interface StepOf {
  notch: number;
  outboard: number;
  standsOff: number;
  gap: number;
  /** Degrees from the heel. */
  gapAt: number;
}

/**
 * What the joint shows after a first cut of another angle, its hole `outboard` of the final one's, the bar pushed home
 * along its own axis until it touches: at the line of either wall where most metal stands before the host. Where the
 * final cut is not exact, metal up to a feather is in nobody's way.
 */
function stepOf(notch: number, cut: CutOf, cope: CopeOf, exact: boolean): StepOf {
  const { joint } = cope;
  const radii = [joint.rho, joint.bore];
  const outboard = overCut(notch, cut.notch, cut, radii);
  const made: CutOf = { ...cut, notch, centre: cut.centre - outboard };
  const touch = exact ? 0.001 : FEATHER;
  const stands = (rho: number, phi: number): number => {
    const b = joint.back(rho, phi);
    const sine = Math.min(1, Math.max(1e-9, joint.solid(joint.at(b + 1e-4, rho, phi)) / 1e-4));
    return b - (exact ? 0 : FEATHER / sine) - sawBack(made, rho, phi - cut.clock, touch);
  };
  const standsOff = Math.max(...radii.map((rho) => greatestRound((phi) => stands(rho, cut.clock + phi))));
  let [gap, gapAt] = [0, 0];
  for (let i = 0; i < 360; i++) {
    const phi = cut.clock + i;
    const edge = sawBack(made, joint.rho, i, touch);
    if (Number.isNaN(edge) || Number.isNaN(joint.back(joint.rho, phi))) continue;
    const open = joint.solid(joint.at(edge + standsOff, joint.rho, phi));
    if (open > gap + 1e-6) [gap, gapAt] = [open, i];
  }
  return { notch, outboard, standsOff, gap, gapAt };
}

export interface StepsOf {
  steps: StepOf[];
  fromShallower: number;
  fromSteeper: number;
  holds: boolean;
  leave: number;
  range: [number, number];
}

/** Five degrees shallower first, then the final angle; a step under half a degree is none. */
export function stepsOf(cut: CutOf, cope: CopeOf, exact: boolean, believed?: number): StepsOf {
  const radii = [cope.joint.rho, cope.joint.bore];
  const first = believed ?? Math.max(0, cut.notch - 5);
  const angles = [first];
  if (Math.abs(cut.notch - first) > 6) angles.push((first + cut.notch) / 2);
  if (Math.abs(cut.notch - first) >= 0.5) angles.push(cut.notch);
  else angles[0] = cut.notch;
  const fromShallower = overCut(cut.notch - 5, cut.notch, cut, radii);
  const fromSteeper = overCut(Math.min(88, cut.notch + 5), cut.notch, cut, radii);
  return {
    steps: angles.map((notch) => stepOf(notch, cut, cope, exact)),
    fromShallower,
    fromSteeper,
    holds: fromSteeper >= 3 * fromShallower,
    leave: overCut(first, cut.notch, cut, radii),
    range: [Math.min(first, cut.notch), Math.max(first, cut.notch)],
  };
}
