import { join } from "node:path";

import { orderSheet } from "../cards/index.ts";
import { isError, type Writer } from "../core/findings/index.ts";
import {
  cureOf,
  type FitBar,
  type Fitting,
  findOrder,
  type Judged,
  packingOf,
  type Rests,
  restsAt,
  weldReach,
} from "../core/fit/index.ts";
import { type End, type Job, Suggester } from "../core/job/index.ts";
import { deg } from "../core/numeric/index.ts";
import { dangersOf, fittingOf, type Plan, wholeOrder } from "../core/plan/index.ts";
import { toPdf } from "../draw/index.ts";
import { CALL, cautionFor, FIT_ANSWER, FORCES, HONEST, WHO_DECIDES, WORK } from "../words/index.ts";
import {
  ADVICE,
  barsAsked,
  type Command,
  findingJson,
  numberOf,
  openPlan,
  printJson,
  report,
  WrongCall,
  words,
} from "./call.ts";
import { besides, type Fine, fineFor, judgedJson, sayJudged } from "./fit-say.ts";
import { judgeInThreads } from "./fit-threads.ts";
import { type FitCall, fittingFor, inSeconds, judgeUnit, unitsOf } from "./fit-units.ts";
import { readFonts } from "./fonts.ts";
import type { Platform } from "./platform.ts";

/** The order sheet in the folder that is asked for. */
const SHEET = "order.pdf";

export const fit: Command = {
  run: async (args, platform) => {
    const { values, positionals } = words(args, {
      bar: { type: "string" },
      order: { type: "string" },
      gap: { type: "string", default: "0" },
      overlong: { type: "string", default: "0" },
      seconds: { type: "string", default: "300" },
      seed: { type: "string", default: "1" },
      threads: { type: "string" },
      progress: { type: "boolean" },
      out: { type: "string" },
      paper: { type: "string", default: "A4" },
      json: { type: "boolean" },
    });
    const seconds = numberOf("seconds", values.seconds, 1, 86400);
    const seed = numberOf("seed", values.seed, 0, 4294967295);
    const gap = numberOf("gap", values.gap, 0, 20);
    const overlong = numberOf("overlong", values.overlong, 0, 50);
    const threads = values.threads === undefined ? undefined : numberOf("threads", values.threads, 1, 64);
    const { out, paper } = values;
    if (paper !== "A4" && paper !== "Letter") throw new WrongCall(CALL.paper(paper));
    const opened = openPlan(positionals, platform);
    if (!opened) return 2;
    const { job, plan, writer } = opened;
    const asked = barsAsked(job, values.bar);
    for (const id of fittingOf(plan).unusable) {
      platform.err(`${WORK.noPanel(id)}\n`);
    }
    const call = { seed, over: -gap, until: inSeconds(seconds) };
    const fitting = fittingFor(plan, call);
    const given = values.order === undefined ? job.order : orderAsked(values.order, plan);
    const write = fineFor(job);
    const progress = progressOf(values.progress === true, platform, write);
    const answer: Answer = given
      ? await judged(
          fitting,
          { ...call, job, order: wholeOrder(plan, given) },
          asked,
          threads,
          platform,
          progress,
        )
      : findOrder({ ...fitting, onStep: (s) => progress(s.done, s.of, s.judged) });
    const bars = answer.bars.filter((b) => asked.includes(b.bar));
    const ofAsked = fitting.bars.filter((b) => asked.includes(b.bar.id));
    const joints = weldReach(fitting, answer.order);
    const reach = joints.filter((r) => asked.includes(r.bar));
    const packings = new Map(fitting.bars.map((b) => [b.bar.id, packingOf(b)]));
    const rests = new Map<string, Rests>(
      overlong === 0
        ? []
        : ofAsked.map((b) => [b.bar.id, restsAt(b, shared(b, overlong), fitting.effort.stop)] as const),
    );
    const stopped = bars.some((b) => b.stopped);
    if (out !== undefined) {
      const judged = answer.bars.filter((b) => !b.stopped);
      const sheet = orderSheet(plan, { order: answer.order, judged, reach: joints }, paper);
      const wrote = platform.write(out, [{ name: SHEET, bytes: await toPdf(sheet, readFonts()) }]);
      if (!wrote.ok) {
        platform.err(`${WORK.unwritten(out, wrote.why)}\n`);
        return 2;
      }
      platform.err(`${WORK.orderSheet(join(out, SHEET))}\n`);
    }
    const found = [...dangersOf(plan), ...plan.findings.filter(isError)];
    if (values.json) {
      printJson(
        {
          order: answer.order,
          bars: bars.map((b) => {
            const rest = rests.get(b.bar);
            return {
              ...judgedJson(b, write),
              reach: reach.filter((r) => r.bar === b.bar),
              packing: packings.get(b.bar),
              ...(rest ? { overlong: restsJson(rest) } : {}),
            };
          }),
          untacked: answer.untacked,
          ...(answer.cure ? { cure: answer.cure } : {}),
          stopped,
          ...ADVICE,
          findings: found.map((f) => findingJson(f, writer)),
        },
        platform,
        // A turn in error by a millionth moves the far end of a bar by more than its clearance is known.
        1e9,
      );
    } else {
      platform.out(`${HONEST} ${WHO_DECIDES}\n\n`);
      answer.order.forEach((id, i) => {
        const b = bars.find((j) => j.bar === id);
        if (!b) return;
        const planned = plan.byId.get(id);
        if (!planned) throw new Error(`bar ${id} was judged without geometry`);
        platform.out(`${FIT_ANSWER.bar(i + 1, planned.bar.label, id, sayJudged(b, write))}\n`);
        const of = reach.filter((r) => r.bar === id);
        for (const line of besides(of, packings.get(id), writer)) platform.out(`${FIT_ANSWER.line(line)}\n`);
        const rest = rests.get(id);
        if (rest)
          platform.out(
            `${FIT_ANSWER.line(FIT_ANSWER.tooLong(writer.length(overlong), sayRests(rest, writer)))}\n`,
          );
      });
      for (const u of answer.untacked) {
        platform.out(`${FIT_ANSWER.untacked(u.bar, u.leave)}\n`);
      }
      if (answer.cure) platform.out(`${answer.cure.says}\n`);
      if (bars.some((b) => b.goesIn === "spring" || b.force !== undefined))
        platform.out(`${cautionFor("sprung")} ${FORCES}\n`);
      if (stopped) platform.out(`${FIT_ANSWER.stopped(seconds)}\n`);
    }
    return report(found, writer, platform);
  },
};

/** What lets in the first bar that does not go in; `before`: the bar that it goes in ahead of. */
interface Cure {
  readonly bar: string;
  readonly before?: string;
  readonly code: "cure-before" | "cure-none" | "cure-time-up";
  readonly says: string;
}

interface Answer {
  readonly order: readonly string[];
  readonly bars: readonly Judged[];
  readonly untacked: readonly { readonly bar: string; readonly leave: readonly string[] }[];
  readonly cure?: Cure;
}

type Progress = (done: number, of: number, judged: Judged) => void;

/** A line a bar to standard error, where someone watches. */
const progressOf = (asked: boolean, platform: Platform, write: Fine): Progress =>
  asked || platform.watched
    ? (done, of, j) => platform.err(`${FIT_ANSWER.progress(done, of, j.bar, sayJudged(j, write))}\n`)
    : () => {};

/** A given order, its bars judged in threads where there are any; the answers do not depend on how many. */
async function judged(
  fitting: Fitting,
  call: FitCall & { readonly job: Job },
  asked: readonly string[],
  threads: number | undefined,
  platform: Platform,
  progress: Progress,
): Promise<Answer> {
  const { order } = call;
  const units = unitsOf(fitting, order, asked);
  const of = units.reduce((sum, u) => sum + u.length, 0);
  const byId = new Map<string, Judged>();
  const told = (j: Judged): void => {
    byId.set(j.bar, j);
    progress(byId.size, of, j);
  };
  const many = threads ?? platform.threads?.count ?? 1;
  if (platform.threads && many > 1 && units.length > 1) {
    await judgeInThreads(platform.threads.entry("fit-worker"), many, call, units, told);
  } else for (const unit of units) judgeUnit(fitting, order, unit, told);
  const bars = order.flatMap((id) => byId.get(id) ?? []);
  const bad = bars.find((b) => b.goesIn === "no");
  if (!bad) return { order, bars, untacked: [] };
  return { order, bars, untacked: [], cure: cureIn(fitting, order, bad.bar) };
}

function cureIn(fitting: Fitting, order: readonly string[], bar: string): Cure {
  const before = cureOf(fitting, order, bar)?.before;
  if (before !== undefined)
    return { bar, before, code: "cure-before", says: FIT_ANSWER.cure(bar, FIT_ANSWER.before(before)) };
  return fitting.effort.stop()
    ? { bar, code: "cure-time-up", says: FIT_ANSWER.cure(bar, FIT_ANSWER.timeUp) }
    : { bar, code: "cure-none", says: FIT_ANSWER.cure(bar, FIT_ANSWER.noCure) };
}

/** Length left over, half of it at each end that lands on a bar: the bar finds its middle. */
function shared({ bar }: FitBar, over: number): Partial<Record<End, number>> {
  const landed = (["A", "B"] as const).filter((end) => bar.seat[end].kind === "on");
  return Object.fromEntries(landed.map((end) => [end, over / landed.length]));
}

const restsJson = ({ short, swung }: Rests): object => ({
  short,
  ...(swung ? { swung: { angle: deg(swung.angle), out: swung.out } } : {}),
});

function sayRests({ short, swung }: Rests, { length, angle }: Writer): string {
  if (short !== undefined) return short === 0 ? FIT_ANSWER.seats : FIT_ANSWER.short(length(short));
  if (swung) {
    return FIT_ANSWER.swung(angle(deg(swung.angle)), length(swung.out));
  }
  return FIT_ANSWER.notBetween;
}

function orderAsked(text: string, plan: Plan): readonly string[] {
  const ids = text.split(",").map((id) => id.trim());
  for (const [i, id] of ids.entries()) {
    if (!plan.job.bars[id]) {
      throw new WrongCall(CALL.orderNoBar(id, new Suggester().closest(id, Object.keys(plan.job.bars))));
    }
    if (ids.indexOf(id) < i) throw new WrongCall(CALL.orderTwice(id));
  }
  return ids;
}
