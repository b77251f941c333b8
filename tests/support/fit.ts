import {
  askOf,
  type Effort,
  type FitBar,
  type Fitting,
  finished,
  type Judged,
} from "../../src/core/fit/index.ts";
import { judge, EFFORT as USUAL } from "../../src/core/fit/judge/index.ts";
import { readJob } from "../../src/core/job/index.ts";
import { fittingOf, planJob } from "../../src/core/plan/index.ts";

/** Half the usual search, so that tests do not take long. */
export const EFFORT: Effort = { ...USUAL, nodes: 1500 };

/** A job object as the fit room wants it. */
export function fittingFor(document: object, effort: Effort = EFFORT): Fitting {
  const read = readJob(JSON.stringify(document));
  if (!read.ok) throw new Error(JSON.stringify(read.problems));
  const { unusable: _, ...fitting } = fittingOf(planJob(read.job));
  return { ...fitting, effort };
}

export const barOf = (fitting: Fitting, id: string): FitBar => fitting.bars.find((b) => b.bar.id === id)!;

/** One bar against all bars before it in the job. */
export function judgedLast(document: object, id: string, effort: Effort = EFFORT): Judged {
  const fitting = fittingFor(document, effort);
  const at = fitting.bars.findIndex((b) => b.bar.id === id);
  const { gates = [] } = fitting;
  return judge(fitting.bars[at]!, {
    tacked: fitting.bars.slice(0, at),
    parts: fitting.parts(false),
    gates,
    effort,
  });
}

export type Place = readonly [number, number, number];

/** A job of bars of one size: paths by ID. */
export const jobOf = (
  bars: Readonly<Record<string, readonly unknown[]>>,
  od = 40,
  more: object = {},
): object => ({
  format: "tubewright job",
  version: 2,
  tubes: { t: { od, wall: 2 } },
  bars: Object.fromEntries(Object.entries(bars).map(([id, path]) => [id, { tube: "t", path }])),
  ...more,
});

const LEANING = [
  [0, 400, 0],
  [0, 200, 900],
];
const across = (z: number) => [
  { on: "left", z },
  { on: "right", z },
];

/** Hosts come together upward, so both bars go in from below; `low`, just under `high`, shuts it out. */
export const TRAP = {
  left: LEANING,
  right: LEANING.map(([x, y, z]) => [x!, -y!, z!]),
  low: across(540),
  high: across(586),
} as const;

/** The same hosts as a pair, two bars apart between them, and a pair of stays that end at a place. */
export function pairedCage(stay: readonly number[]): { readonly bars: Readonly<Record<string, object>> } {
  const job = jobOf({
    left: LEANING,
    high: across(586),
    low: across(300),
    stay: [{ on: "left", z: 450 }, stay],
  }) as { bars: Record<string, object> };
  const twins = { right: { mirrorOf: "left" }, "stay-r": { mirrorOf: "stay" } };
  return { ...job, bars: { ...job.bars, ...twins } };
}

/** A post with a bar on it, and a tube that stands close by the joint: with that in first, part of the ring is shut. */
export const SHADED = {
  post: [
    [0, 0, 20],
    [0, 0, 800],
  ],
  beside: [
    [41, 41, 20],
    [41, 41, 800],
  ],
  bar: [{ on: "post", z: 400 }, [0, 400, 400]],
} as const;

/** An order judged bar by bar with one memory: the plain twin of `judgeAt`, which judges one bar in a thread of its own. */
export function judgeOrder(fitting: Fitting, order: readonly string[]): readonly Judged[] {
  const ask = askOf(fitting);
  return order.map((bar, i) => {
    const judged = finished(fitting, ask(bar, order.slice(0, i), false));
    fitting.onStep?.({ bar, done: i + 1, of: order.length, judged });
    return judged;
  });
}
