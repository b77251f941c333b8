// biome-ignore-all lint/style/noNonNullAssertion: points and hosts are those of the job's own checked references; survey is there where the kept places are computed from it.
import {
  bar as barQuantity,
  type Finding,
  list,
  mm,
  place as placeQuantity,
  point as pointQuantity,
} from "../findings/index.ts";
import type { Reading, TapeEnd } from "../job/reading-types.ts";
import type { Job, JobPoint } from "../job/types.ts";
import { type Layout, layOut, pointsNamed, pointsUnder, type ResolvedBar } from "../layout/index.ts";
import { SAME_PLACE } from "../numeric/index.ts";
import { dist, type Vec } from "../space/index.ts";
import { advicePhrase, pointsIn, type Survey, surveyJob } from "../survey/index.ts";

/** A job with every point where its readings put it, laid out. */
export interface Places {
  /** The job; a point that its readings determine has its adjusted place, its `sd` is still the one that was given. */
  readonly job: Job;
  readonly layout: Layout;
  /** Absent where the job has no readings. */
  readonly survey?: Survey;
  /** Of the survey and of the readings that were left out. */
  readonly findings: readonly Finding[];
  /** What stands to be said of a bar because of the points that it stands on, by ID. */
  readonly ofBars: ReadonlyMap<string, readonly Finding[]>;
  /** What the places come from: while this is the same, so are they. */
  readonly basis?: { readonly text: string; readonly given?: Layout; readonly bars: readonly ResolvedBar[] };
}

/** So often are bars laid out and readings that were taken from them adjusted anew before it is told that they do not settle. */
const PASSES = 12;

/**
 * Points by their readings, and bars by their points.
 *
 * A point that the readings determine stands where the adjustment of all of them puts it, whether it was unknown or given
 * with an error; one that no reading touches stands where it was given. Readings taken from a bar count from where the
 * bar stands, which hangs on points again: laid out and adjusted in turn until no such bar moves by more than 0.001 mm.
 * A tape between a point and a bar that stands on that point says nothing of where either is and is left out, with a
 * finding. Why so: docs/decisions/measured-places.md.
 * Given the places before an edit, what the edit did not touch keeps its identity.
 */
export function placeJob(job: Job, before?: Places): Places {
  if (job.readings.length === 0)
    return { job, layout: layOut(job, before?.layout), findings: [], ofBars: new Map() };
  const { readings, leftOut } = usable(job);
  const held = [...new Set(readings.filter((r) => !r.struck).flatMap(barsIn))];
  const given = held.length > 0 ? layOut(job, before?.basis?.given ?? before?.layout) : undefined;
  const bars = held.flatMap((id) => given?.byId.get(id) ?? []);
  const basis = {
    text: JSON.stringify([job.points, job.readings, job.shop.errors, held]),
    ...(given ? { given } : {}),
    bars,
  };
  const kept =
    before?.survey && bars.length === held.length && same(before.basis, basis) ? before : undefined;
  if (kept) {
    const placed = placedJob(job, kept.survey!);
    return {
      ...kept,
      job: placed,
      layout: layOut(placed, kept.layout),
      ofBars: ofBars(job, kept.survey!),
      basis,
    };
  }
  const surveyed = { ...job, readings };
  let from = given?.byId ?? new Map<string, ResolvedBar>();
  for (let pass = 1; ; pass++) {
    const survey = surveyJob(surveyed, from);
    const placed = placedJob(job, survey);
    const layout = layOut(placed, before?.layout);
    const off = Math.max(0, ...held.map((id) => apart(from.get(id), layout.byId.get(id))));
    if (off > SAME_PLACE && pass < PASSES) {
      from = layout.byId;
      continue;
    }
    const astray: Finding[] =
      off > SAME_PLACE
        ? [{ code: "survey-bars-circle", place: "readings", values: { off: mm(Math.min(off, 1e6)) } }]
        : [];
    const findings = [...leftOut, ...survey.findings, ...astray];
    return { job: placed, layout, survey, findings, ofBars: ofBars(job, survey), basis };
  }
}

const same = (a: Places["basis"], b: NonNullable<Places["basis"]>): boolean =>
  a?.text === b.text && a.bars.length === b.bars.length && a.bars.every((bar, i) => bar === b.bars[i]);

const barOf = (end: TapeEnd): readonly string[] => (end.kind === "point" ? [] : [end.bar]);
const barsIn = (r: Reading): readonly string[] => (r.kind === "tape" ? r.ends.flatMap(barOf) : []);

/** Readings with those struck through that run from a point to a bar standing on it. */
function usable(job: Job): { readonly readings: readonly Reading[]; readonly leftOut: readonly Finding[] } {
  const under = pointsUnder(job);
  const leftOut: Finding[] = [];
  const readings = job.readings.map((reading, i) => {
    if (reading.kind !== "tape" || reading.struck) return reading;
    const [host] = barsIn(reading);
    const point = pointsIn(reading).find(
      (p) => isLoose(job.points[p]!) && host !== undefined && under.get(host)!.has(p),
    );
    if (host === undefined || point === undefined) return reading;
    const values = { host: barQuantity(host), point: pointQuantity(point) };
    leftOut.push({ code: "survey-own-bar", place: `readings[${i}]`, values });
    return { ...reading, struck: true };
  });
  return { readings, leftOut };
}

const isLoose = ({ at, sd }: JobPoint): boolean => !at || sd.some((s) => s > 0);

function placedJob(job: Job, survey: Survey): Job {
  const points = Object.fromEntries(
    Object.entries(job.points).map(([id, point]) => {
      const found = survey.points.get(id);
      return [id, found && isLoose(point) ? { ...point, at: found.at } : point];
    }),
  );
  return { ...job, points };
}

/** How far a bar moved (mm); Infinity where it came to have a place or lost it, or has other bends. */
function apart(a: ResolvedBar | undefined, b: ResolvedBar | undefined): number {
  if (a === b) return 0;
  const places = ({ centreline: c }: ResolvedBar): Vec[] => [
    c.start,
    ...c.bends.map((x) => x.corner),
    c.finish,
  ];
  const [p, q] = [a ? places(a) : [], b ? places(b) : []];
  return p.length === q.length ? Math.max(...p.map((at, i) => dist(at, q[i]!))) : Number.POSITIVE_INFINITY;
}

/** Bars on adjusted places, on such as move when the suspects are left out, on such as have a mirror image. */
function ofBars(job: Job, survey: Survey): ReadonlyMap<string, readonly Finding[]> {
  const mirrored = new Map(
    survey.mirrored.flatMap(({ points, settle }) => points.map((p) => [p.id, { ...p, settle }])),
  );
  const read = new Set(job.readings.filter((r) => !r.struck).flatMap(pointsIn));
  const findings = [...pointsNamed(job)].map(([bar, points]): readonly [string, readonly Finding[]] => {
    const place = `bars.${bar}`;
    const adjusted = points.filter((p) => survey.points.has(p) && isLoose(job.points[p]!) && read.has(p));
    const found: Finding[] =
      adjusted.length > 0
        ? [{ code: "bar-on-adjusted", place, bar, values: { points: list(adjusted.map(pointQuantity)) } }]
        : [];
    for (const p of adjusted) {
      const clean = survey.cleaned.points.get(p);
      const off = clean ? dist(clean.at, survey.points.get(p)!.at) : 0;
      if (off > job.shop.gap)
        found.push({
          code: "bar-on-doubtful",
          place,
          bar,
          values: { point: pointQuantity(p), off: mm(off) },
        });
      const image = mirrored.get(p);
      if (image) {
        const values = {
          point: pointQuantity(p),
          other: placeQuantity(image.other),
          settle: advicePhrase(image.settle),
        };
        found.push({ code: "bar-on-mirrored", place, bar, values });
      }
    }
    return [bar, found];
  });
  return new Map(findings.filter(([, found]) => found.length > 0));
}

const surveyed = new WeakMap<object, Survey>();

/**
 * What is known of the car's points: by their readings, and of points without any, what would fix them. Undefined where
 * the job has neither. Worked out once for a plan.
 */
export function surveyOf({
  job,
  places,
  layout,
}: {
  job: Job;
  places: Places;
  layout: Layout;
}): Survey | undefined {
  if (places.survey) return places.survey;
  if (Object.keys(job.points).length === 0) return undefined;
  const have = surveyed.get(places) ?? surveyJob(job, layout.byId);
  surveyed.set(places, have);
  return have;
}
