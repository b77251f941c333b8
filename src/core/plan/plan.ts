import {
  type BendPlan,
  bendLimits,
  bendPlan,
  calibrate,
  type DieCard,
  impossible,
  smallBends,
} from "../bend/index.ts";
import { type CopeResult, copeOf, type Notch, type NotchSettings, notchOf } from "../cope/index.ts";
import { type Finding, isError } from "../findings/index.ts";
import type { End, Job } from "../job/types.ts";
import { type Layout, leastBend, mutualEnds, type ResolvedBar } from "../layout/index.ts";
import { rad } from "../numeric/index.ts";
import { doorGapFindings } from "../survey/index.ts";
import { hostsOf } from "./hosts.ts";
import { type Places, placeJob } from "./places.ts";

/** Everything computed of one bar that has a geometry. */
export interface BarPlan {
  readonly id: string;
  readonly bar: ResolvedBar;
  readonly copes: Readonly<Record<End, CopeResult>>;
  /** Least back at each end (mm): its long point. */
  readonly leastBack: Readonly<Record<End, number>>;
  readonly bend: BendPlan;
  readonly findings: readonly Finding[];
  /** What it was computed from: while this is the same, so is the plan. */
  readonly basis: {
    readonly hosts: readonly ResolvedBar[];
    readonly bender: string;
    readonly measured: readonly Finding[];
  };
}

/** A job with all its results. Parts that an edit did not touch keep their identity. */
export interface Plan {
  /** As it was read: its points as given. */
  readonly job: Job;
  /** Points where the readings put them, with the survey where there are any. */
  readonly places: Places;
  readonly layout: Layout;
  /** In the job's order; a bar without geometry, or whose card nobody could work to, is not among them. */
  readonly bars: readonly BarPlan[];
  readonly byId: ReadonlyMap<string, BarPlan>;
  /** Die cards from test bends, of the dies that have any. */
  readonly dies: ReadonlyMap<string, DieCard>;
  /** All findings: of door gaps, the survey's, then layout's in the job's order with each bar's; notches add theirs when asked for. */
  readonly findings: readonly Finding[];
  /** Ends that are coped to each other: the job's references make a circle. */
  readonly mutual: readonly Finding[];
}

/** Hears how far long work has come. */
export type Told = (done: number, of: number) => void;

/** Computes a job; given the plan before an edit, only the bars that changed and what lands on them are new. */
export function planJob(job: Job, before?: Plan, told?: Told): Plan {
  const places = placeJob(job, before?.places);
  const { layout } = places;
  const byId = new Map<string, BarPlan>();
  const findings: Finding[] = [...doorGapFindings(job), ...places.findings];
  for (const [i, { id, bar, findings: own }] of layout.bars.entries()) {
    told?.(i, layout.bars.length);
    findings.push(...own);
    if (!bar) continue;
    const a = hostsOf(bar, "A", layout);
    const b = hostsOf(bar, "B", layout);
    if (!a || !b) {
      findings.push(missingCrowd(bar, layout));
      continue;
    }
    const measured = places.ofBars.get(id) ?? [];
    const plan = planBar(bar, a, b, { job, layout, measured }, before?.byId.get(id));
    findings.push(...plan.findings);
    // A bar whose ends or marks cannot be has no figures: what lands on it still knows where it runs.
    if (!plan.findings.some(isError)) byId.set(id, plan);
  }
  const mutual = mutualEnds(layout);
  return { job, places, layout, bars: [...byId.values()], byId, dies: dieCards(job), findings, mutual };
}

function missingCrowd(bar: ResolvedBar, layout: Layout): Finding {
  const host = landsOn(bar).find((id) => !layout.byId.has(id)) ?? "";
  return {
    code: "host-without-geometry",
    place: `bars.${bar.id}`,
    bar: bar.id,
    values: { host: { text: host } },
  };
}

function planBar(
  bar: ResolvedBar,
  a: readonly ResolvedBar[],
  b: readonly ResolvedBar[],
  { job, layout, measured }: Pick<Plan, "job" | "layout"> & { readonly measured: readonly Finding[] },
  before: BarPlan | undefined,
): BarPlan {
  const lookup = (id: string): ResolvedBar | undefined => layout.byId.get(id);
  // An `also` host ends where its own ends land, cut by what they land on.
  const beside = [...a.slice(1), ...b.slice(1)].flatMap((h) => landsOn(h).flatMap((id) => lookup(id) ?? []));
  const least = leastBend(job);
  const basis = { hosts: [...a, ...b, ...beside], bender: JSON.stringify([job.bender, least]), measured };
  if (before?.bar === bar && sameBasis(before.basis, basis)) return before;
  const copes = { A: copeOf(bar, "A", a, lookup), B: copeOf(bar, "B", b, lookup) };
  const leastBack = { A: copes.A.cope.least, B: copes.B.cope.least };
  const bend = bendPlan(bar, leastBack);
  const cannot = impossible(bar, bend, leastBack);
  const findings = [
    ...measured,
    ...copes.A.findings,
    ...copes.B.findings,
    ...smallBends(bar, least),
    ...(cannot.length > 0 ? cannot : bendLimits(bar, leastBack, job.bender)),
  ];
  return { id: bar.id, bar, copes, leastBack, bend, findings, basis };
}

const landsOn = (bar: ResolvedBar): readonly string[] =>
  [bar.seat.A, bar.seat.B].flatMap((s) => (s.kind === "on" ? s.hosts : []));

const sameBasis = (a: BarPlan["basis"], b: BarPlan["basis"]): boolean =>
  a.bender === b.bender &&
  JSON.stringify(a.measured) === JSON.stringify(b.measured) &&
  a.hosts.length === b.hosts.length &&
  a.hosts.every((h, i) => h === b.hosts[i]);

function dieCards(job: Job): ReadonlyMap<string, DieCard> {
  const cards = new Map<string, DieCard>();
  for (const [id, die] of Object.entries(job.dies)) {
    if (die.tests.length > 0) cards.set(id, calibrate(die.tests, die, `dies.${id}.tests`, job.shop.errors));
  }
  return cards;
}

const notches = new WeakMap<CopeResult, { readonly settings: string; readonly notch: Notch | undefined }>();

/**
 * Saw setting, hole centre, gap and steps of one end; undefined for an end that is sawn flat. Computed when first
 * asked for and kept as long as the end's curve and the notcher's settings stay the same.
 * `believed` overrides what the job believes of the angle (degrees off square: a first angle, or a range).
 */
export function notchAt(
  plan: Plan,
  id: string,
  end: End,
  believed?: number | readonly [number, number],
): Notch | undefined {
  const bar = plan.byId.get(id);
  if (!bar) return undefined;
  const settings = notchSettings(plan.job, believed ?? plan.job.bars[id]?.believed?.[end]);
  const key = JSON.stringify(settings);
  const kept = notches.get(bar.copes[end]);
  if (kept?.settings === key) return kept.notch;
  const notch = notchOf(bar.bar, end, bar.copes[end], settings);
  notches.set(bar.copes[end], { settings: key, notch });
  return notch;
}

function notchSettings(job: Job, believed?: number | readonly [number, number]): NotchSettings {
  const { saws, steepest, wrapBeyond } = job.notcher;
  return {
    saws: saws.map((d) => d / 2),
    // A shop that states no limit is taken to reach what any saw can: past this the cut runs off the tube.
    steepest: rad(steepest ?? 80),
    wrapBeyond: wrapBeyond ?? job.shop.gap,
    ...(believed === undefined
      ? {}
      : {
          believed:
            typeof believed === "number"
              ? { first: rad(believed) }
              : { range: [rad(believed[0]), rad(believed[1])] as const },
        }),
  };
}
