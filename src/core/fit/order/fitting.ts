// biome-ignore-all lint/style/noNonNullAssertion: IDs come from the bars of this fitting.
import { phrase } from "../../findings/index.ts";
import { type Effort, type Judged, judge, type Setting } from "../judge/index.ts";
import type { Welding } from "../reach/index.ts";
import type { FitBar, Gate, Over } from "../scene/index.ts";
import type { Push } from "../way/index.ts";
import { type FitMemory, newMemory, numbersOf, recall, recallTwin, remember } from "./memory.ts";

/** All that an order of fitting is sought for; bars in the job's order. */
export interface Fitting extends Welding {
  /** Each bar of a pair to its twin. */
  readonly twins: ReadonlyMap<string, string>;
  /** Openings of the body, to say which of them a way leads through. */
  readonly gates?: readonly Gate[];
  readonly effort: Effort;
  /** Gap (negative) or extra length that all copes are cut with, an end (mm). */
  readonly over?: number;
  /** What was found out before, added to in place; without it nothing is kept past this one question. */
  readonly memory?: FitMemory;
  /** The greatest force (N) that pushing the bars tacked so far aside takes; undefined where none can be told. */
  readonly force?: (pushes: readonly Push[], tacked: readonly string[]) => number | undefined;
  /** Told after every bar that was judged. */
  readonly onStep?: (step: Step) => void;
  /** Told when nothing known answers for a bar and a search begins. */
  readonly onSearch?: (bar: string) => void;
}

/** Progress: the bar just judged, how many are done, of how many. */
export interface Step {
  readonly bar: string;
  readonly done: number;
  readonly of: number;
  readonly judged: Judged;
}

/** Share of the nodes that a first, quick look may make. */
const QUICK = 0.12;

/** Asks for one bar among others; `quick`: a first look, which remembers no "no". */
export type Ask = (id: string, before: readonly string[], quick: boolean) => Judged;

/**
 * One bar among those tacked before it, by what is remembered where that serves (`recall`), else by its own ways of
 * before and its twin's in the mirror, swept anew, else by a search (`judge`).
 */
export function askOf(fitting: Fitting): Ask {
  const byId = new Map(fitting.bars.map((b) => [b.bar.id, b]));
  const memory = fitting.memory ?? newMemory();
  const numbers = numbersOf(memory);
  const { effort } = fitting;
  const over = overOf(fitting);
  return (id, before, quick) => {
    const own = byId.get(id)!;
    const setting = settingOf(fitting, own, before);
    const { tacked, parts } = setting;
    const nodes = quick ? Math.ceil(effort.nodes * QUICK) : effort.nodes;
    const self = numbers.own(own, over);
    const among = [...tacked.map(numbers.bar), ...parts.map(numbers.part)].sort((a, b) => a - b);
    const asked = { nodes, seed: effort.seed, most: effort.most };
    const known = recall(memory, self, among, asked);
    let judged: Judged;
    if (known.answer) judged = { ...known.answer, after: before };
    else {
      const twin = byId.get(fitting.twins.get(id) ?? "");
      const tries = [...known.tries, ...(twin ? recallTwin(memory, numbers.own(twin, over)) : [])];
      judged = judge(own, {
        ...setting,
        effort: { ...effort, nodes },
        ...(known.joint ? { joint: known.joint } : {}),
        ...(known.otherwise ? { otherwise: known.otherwise } : {}),
        tries,
        searching: () => fitting.onSearch?.(id),
      });
      const hosts = [...own.hosts.A, ...own.hosts.B];
      if (!judged.stopped && hosts.every((h) => before.includes(h.id)))
        remember(memory, self, { among, ...asked, judged });
    }
    // A bar that the body sets, once the roof is off.
    return own.needs === "body on" && roofOff(own, tacked) ? tooLate(judged) : judged;
  };
}

/** Once a bar that needs the roof off is in, or for it, the roof is off. */
export const roofOff = (own: FitBar, tacked: readonly FitBar[]): boolean =>
  own.needs === "roof off" || tacked.some((t) => t.needs === "roof off");

const overOf = ({ over }: Fitting): Over => (over ? { A: over, B: over } : {});

/** What stands when a bar goes in after others. */
export function settingOf(fitting: Fitting, own: FitBar, before: readonly string[]): Setting {
  const byId = new Map(fitting.bars.map((b) => [b.bar.id, b]));
  const tacked = before.map((b) => byId.get(b)!);
  return {
    tacked,
    parts: fitting.parts(roofOff(own, tacked)),
    gates: fitting.gates ?? [],
    effort: fitting.effort,
    over: overOf(fitting),
  };
}

const tooLate = ({ bar, after, joint, lips }: Judged): Judged => ({
  ...unanswered(bar, after, [phrase("fit-roof-off")]),
  goesIn: "no",
  joint,
  lips,
  proved: true,
});

/** A bar without an answer, and why. */
export const unanswered = (bar: string, after: readonly string[], why: Judged["why"]): Judged => ({
  bar,
  after,
  goesIn: "unknown",
  joint: "open",
  proved: false,
  way: [],
  past: [],
  spring: 0,
  leaving: 0,
  pushes: [],
  lips: [],
  blockedBy: [],
  fouls: [],
  through: [],
  why,
});
