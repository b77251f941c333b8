import type { Reading, TapeEnd } from "../../src/core/job/reading-types.ts";
import type { JobPoint } from "../../src/core/job/types.ts";
import { normal, seeded } from "../../src/core/numeric/index.ts";
import { dist, sub, type Vec } from "../../src/core/space/index.ts";
import { type SurveyBar, type SurveyJob, surveyJob } from "../../src/core/survey/index.ts";

export const exact = (x: number, y: number, z: number): JobPoint => ({ at: [x, y, z], sd: [0, 0, 0] });
export const known = (at: Vec, sd: number): JobPoint => ({ at, sd: [sd, sd, sd] });
export const UNKNOWN: JobPoint = { sd: [0, 0, 0] };

const end = (p: string | TapeEnd): TapeEnd => (typeof p === "string" ? { kind: "point", point: p } : p);
const sdOf = (sd: number | undefined) => (sd === undefined ? {} : { sd });

export const tape = (p: string | TapeEnd, q: string | TapeEnd, length: number, sd?: number): Reading => ({
  kind: "tape",
  ends: [end(p), end(q)],
  length,
  ...sdOf(sd),
});
/** The same distance by a tape that was held at a mark: it reads as much more. */
export const heldAt = (mark: number, reading: Reading): Reading =>
  reading.kind === "tape" ? { ...reading, length: reading.length + mark, mark } : reading;
export const height = (point: string, value: number, sd?: number): Reading => ({
  kind: "height",
  point,
  value,
  ...sdOf(sd),
});
export const out = (point: string, value: number, sd?: number): Reading => ({
  kind: "out",
  point,
  value,
  ...sdOf(sd),
});
export const fore = (point: string, value: number, sd?: number): Reading => ({
  kind: "fore",
  point,
  value,
  ...sdOf(sd),
});
export const level = (p: string, q: string, sd?: number): Reading => ({
  kind: "level",
  points: [p, q],
  ...sdOf(sd),
});
export const plumb = (p: string, q: string, sd?: number): Reading => ({
  kind: "plumb",
  points: [p, q],
  ...sdOf(sd),
});
export const slope = (p: string, q: string, angle: number, sd?: number): Reading => ({
  kind: "slope",
  points: [p, q],
  angle,
  ...sdOf(sd),
});
export const lean = (way: "along" | "across", angle: number, sd?: number): Reading => ({
  kind: "lean",
  way,
  angle,
  ...sdOf(sd),
});

export const ERRORS = { tape: 1, height: 1, level: 1, plumb: 1, slope: 0.2 };

export const jobOf = (
  points: Readonly<Record<string, JobPoint>>,
  readings: readonly Reading[],
  errors: Partial<typeof ERRORS> = {},
): SurveyJob => ({ points, readings, shop: { errors: { ...ERRORS, ...errors } } });

export const survey = (
  points: Readonly<Record<string, JobPoint>>,
  readings: readonly Reading[],
  bars?: ReadonlyMap<string, SurveyBar>,
) => surveyJob(jobOf(points, readings), bars);

/** A made-up shell: marks on the floor and on the sills known exactly, points up in it unknown, all places true. */
export interface Shell {
  readonly points: Readonly<Record<string, JobPoint>>;
  readonly truth: Readonly<Record<string, Vec>>;
}

export function shellOf(marks: Readonly<Record<string, Vec>>, unknown: Readonly<Record<string, Vec>>): Shell {
  const points: Record<string, JobPoint> = {};
  for (const [id, at] of Object.entries(marks)) points[id] = exact(...at);
  for (const id of Object.keys(unknown)) points[id] = UNKNOWN;
  return { points, truth: { ...marks, ...unknown } };
}

/** A tape as it would be read without error. */
export const trueTape = ({ truth }: Shell, p: string, q: string): number => dist(truth[p]!, truth[q]!);

/** Readings with normally distributed errors of their own sd (or the shop's) added, seeded. */
export function disturbed(readings: readonly Reading[], seed: number): readonly Reading[] {
  const random = seeded(seed);
  return readings.map((r) => {
    const e = normal(random);
    if (r.kind === "tape") return { ...r, length: r.length + e * (r.sd ?? ERRORS.tape) };
    if (r.kind === "slope" || r.kind === "lean") return { ...r, angle: r.angle + e * (r.sd ?? ERRORS.slope) };
    if (r.kind === "height" || r.kind === "out" || r.kind === "fore")
      return { ...r, value: r.value + e * (r.sd ?? ERRORS.height) };
    return r;
  });
}

/** How far two places are apart. */
export const off = (p: Vec, q: Vec): number => Math.hypot(...sub(p, q));

/** Sixty points, no start given: heights and tapes from marks and from each other, or tapes between near ones alone. */
export function largeSurvey(seed: number, kind: "heights" | "tapes alone") {
  const random = seeded(seed);
  const points: Record<string, JobPoint> = {};
  const truth: Vec[] = [];
  for (let i = 0; i < 60; i++) {
    truth.push([3000 * random() - 1000, 1400 * (random() - 0.5), i < 4 ? 0 : 1200 * random()]);
    points[`p${i}`] = i < 6 ? exact(...truth[i]!) : UNKNOWN;
  }
  const taped = new Set<string>();
  const readings: Reading[] = [];
  const link = (i: number, j: number): boolean => {
    const key = [i, j].sort().join();
    if (i === j || taped.has(key) || (i < 6 && j < 6)) return false;
    taped.add(key);
    readings.push(tape(`p${i}`, `p${j}`, dist(truth[i]!, truth[j]!) + normal(random)));
    return true;
  };
  for (let i = 6; i < 60; i++) {
    if (kind === "heights") {
      readings.push(height(`p${i}`, truth[i]![2] + normal(random)));
      for (const below of [6, 6, i]) while (!link(i, Math.floor(below * random())));
    } else {
      const near = truth.map((at, j) => ({ j, far: dist(at, truth[i]!) })).sort((a, b) => a.far - b.far);
      for (const { j } of near.slice(1, 5)) link(i, j);
    }
  }
  while (readings.length < 240) link(Math.floor(60 * random()), Math.floor(60 * random()));
  return { points, truth, readings };
}

/**
 * Five known marks and so many unknown points taped from each other and from the marks alone (sd 1 mm): `ties` tapes back
 * to what stands before it for each point, and half as many again between any two.
 */
export function tapedNet(seed: number, count: number, ties: number) {
  const random = seeded(seed);
  const truth: Record<string, Vec> = {
    m0: [0, 0, 0],
    m1: [1500, 100, 90],
    m2: [300, 900, 300],
    m3: [-600, -700, -150],
    m4: [900, -650, 210],
  };
  const points: Record<string, JobPoint> = {};
  for (const [id, at] of Object.entries(truth)) points[id] = exact(...at);
  for (let i = 0; i < count; i++) {
    truth[`p${i}`] = [2400 * random() - 800, 1400 * (random() - 0.5), 150 + 1100 * random()];
    points[`p${i}`] = UNKNOWN;
  }
  const ids = Object.keys(truth);
  const taped = new Set<string>();
  const readings: Reading[] = [];
  const link = (p: string, q: string): boolean => {
    const key = [p, q].sort().join();
    if (p === q || taped.has(key)) return false;
    taped.add(key);
    readings.push(tape(p, q, dist(truth[p]!, truth[q]!) + normal(random)));
    return true;
  };
  for (let i = 0; i < count; i++)
    for (let k = 0; k < Math.min(ties, 5 + i); ) if (link(ids[Math.floor(random() * (5 + i))]!, `p${i}`)) k++;
  const any = (): string => `p${Math.floor(count * random())}`;
  for (let k = 0; k < count / 2; k++) link(any(), any());
  return { points, truth, readings };
}
