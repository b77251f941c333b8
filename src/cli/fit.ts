import { isError, type Writer } from "../core/findings/index.ts";
import {
  cureOf,
  type Fitting,
  findOrder,
  type Judged,
  judgeAt,
  judgeOrder,
  type Packing,
  packingOf,
  type Reach,
  weldReach,
} from "../core/fit/index.ts";
import { Suggester } from "../core/job/index.ts";
import { fittingOf, type Plan } from "../core/plan/index.ts";
import {
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

/** Where a shop has not said: nozzle and neck of a common torch (common practice, no source). */
const TORCH = { od: 22, length: 120 };

export const fit: Command = {
  about: "will each bar go in: the way, the order, the springing it needs",
  usage: 'tubewright fit JOB [--bar ID] [--order "ID,ID,…"] [--seconds N] [--seed N] [--json]',
  run: (args, platform) => {
    const { values, positionals } = words(args, {
      bar: { type: "string" },
      order: { type: "string" },
      seconds: { type: "string", default: "300" },
      seed: { type: "string", default: "1" },
      json: { type: "boolean" },
    });
    const seconds = numberOf("seconds", values.seconds, 1, 86400);
    const seed = numberOf("seed", values.seed, 0, 4294967295);
    const opened = openPlan(positionals, platform);
    if (!opened) return 2;
    const { job, plan, writer } = opened;
    const asked = barsAsked(job, values.bar);
    const until = performance.now() + seconds * 1000;
    const stopped = (): boolean => performance.now() > until;
    const { unusable, ...asPlanned } = fittingOf(plan);
    for (const id of unusable) {
      platform.err(`warning: body.panels.${id}: its edge and openings make no sheet; it blocks nothing\n`);
    }
    const fitting: Fitting = {
      ...asPlanned,
      effort: { seed, nodes: 3000, most: 5, stop: stopped },
      onStep: ({ judged: j }) => platform.err(`${j.bar}: ${sayJudged(j)}\n`),
    };
    const given = values.order === undefined ? job.order : orderAsked(values.order, plan);
    const found = plan.findings.filter(isError);
    const answer = given ? judged(fitting, whole(given, plan), asked) : ordered(fitting);
    const bars = answer.bars.filter((b) => asked.includes(b.bar));
    const reach = weldReach(fitting, answer.order, job.shop.torch ?? TORCH).filter((r) =>
      asked.includes(r.bar),
    );
    const packings = new Map(fitting.bars.map((b) => [b.bar.id, packingOf(b)]));
    if (values.json) {
      printJson(
        {
          order: answer.order,
          bars: bars.map((b) => ({
            ...judgedJson(b),
            reach: reach.filter((r) => r.bar === b.bar),
            packing: packings.get(b.bar) ?? null,
          })),
          untacked: answer.untacked,
          stopped: stopped(),
          findings: found.map((f) => findingJson(f, writer)),
        },
        platform,
        // A turn in error by a millionth moves the far end of a bar by more than its clearance is known.
        1e9,
      );
    } else {
      platform.out(
        "Advice from geometry alone: a path shown was followed and checked; a “no” is only as good as its search.\n\n",
      );
      answer.order.forEach((id, i) => {
        const b = bars.find((j) => j.bar === id);
        if (!b) return;
        const { label } = plan.byId.get(id)!.bar;
        platform.out(`${String(i + 1).padStart(3)}  ${label} (${id})\n       ${sayJudged(b)}\n`);
        for (const line of besides(
          reach.filter((r) => r.bar === id),
          packings.get(id),
          writer,
        )) {
          platform.out(`       ${line}\n`);
        }
      });
      for (const u of answer.untacked) {
        platform.out(
          u.leave.length > 0
            ? `${u.bar} goes in while ${u.leave.join(", ")} is not tacked\n`
            : `${u.bar}: nothing tried, left untacked, lets it in\n`,
        );
      }
      if (answer.cure) platform.out(`${answer.cure}\n`);
      if (stopped()) platform.out(`stopped after ${seconds} seconds: the rest was not looked at\n`);
    }
    return report(found, writer, platform);
  },
};

interface Answer {
  readonly order: readonly string[];
  readonly bars: readonly Judged[];
  readonly untacked: readonly { readonly bar: string; readonly leave: readonly string[] }[];
  readonly cure?: string;
}

const ordered = (fitting: Fitting): Answer => findOrder(fitting);

function judged(fitting: Fitting, order: readonly string[], asked: readonly string[]): Answer {
  const only = asked.length === 1 ? asked[0]! : undefined;
  const bars =
    only === undefined
      ? judgeOrder(fitting, order)
      : order.includes(only)
        ? [judgeAt(fitting, order, only)]
        : [];
  const bad = bars.find((b) => b.goesIn === "no");
  const cured = bad && cureOf(fitting, order, bad.bar);
  const cure =
    bad &&
    (cured
      ? `${bad.bar} is the first that does not go in; put in before ${cured.before}, it does`
      : `${bad.bar} is the first that does not go in; no earlier place in this order cures it`);
  return { order, bars, untacked: [], ...(cure === undefined ? {} : { cure }) };
}

const percent = (share: number): string => `${Math.round(share * 100)} %`;

/** Weld reach where it is not whole, and packing where there is any. */
function besides(reach: readonly Reach[], packing: Packing | undefined, writer: Writer): readonly string[] {
  const lines: string[] = [];
  for (const r of reach) {
    if (r.last === 1) continue;
    const closed = r.before.map((b) => `${percent(b.share)} before ${b.bar} goes in`).join(", ");
    const roof = r.roofOff > r.last ? `, ${percent(r.roofOff)} with the roof off` : "";
    const text = closed === "" ? "" : `; weld ${closed}`;
    lines.push(
      `end ${r.end}: the torch gets to ${percent(r.last)} of the ring with all bars in${roof}${text}`,
    );
  }
  if (packing && (packing.flat.A !== 0 || packing.flat.B !== 0)) {
    const { A, B } = packing.flat;
    const on = packing.on.A === packing.on.B ? packing.on.A : `${packing.on.A} and ${packing.on.B}`;
    lines.push(
      `an edge across ${on} clears it by ${writer.length(A)} at A and ${writer.length(B)} at B (a 90° angle: ${writer.length(packing.angle.A)} and ${writer.length(packing.angle.B)})`,
    );
  }
  return lines;
}

function orderAsked(text: string, plan: Plan): readonly string[] {
  const ids = text.split(",").map((id) => id.trim());
  for (const [i, id] of ids.entries()) {
    if (!plan.job.bars[id]) {
      throw new WrongCall(
        `--order: no bar is called "${id}"${new Suggester().hint(id, Object.keys(plan.job.bars))}`,
      );
    }
    if (ids.indexOf(id) < i) throw new WrongCall(`--order: ${id} is in the list twice`);
  }
  return ids;
}

/** The order with the bars that it leaves out behind, hosts first; bars without a geometry are no part of it. */
const whole = (order: readonly string[], plan: Plan): readonly string[] => [
  ...order.filter((id) => plan.byId.has(id)),
  ...plan.layout.order.filter((id) => plan.byId.has(id) && !order.includes(id)),
];

function judgedJson(j: Judged): object {
  return {
    bar: j.bar,
    after: j.after,
    goesIn: j.goesIn,
    joint: j.joint,
    way: j.way.map((p) => ({ at: p.at, turn: p.turn })),
    clearance: j.clearance ?? null,
    nearest: j.nearest ?? null,
    spring: j.spring,
    proved: j.proved,
    slides: j.slides ?? null,
    lips: j.lips,
    fouls: j.fouls.map((f) => ({ id: f.id, by: f.by })),
    blockedBy: j.blockedBy,
    why: j.why,
  };
}

function sayJudged(j: Judged): string {
  const word = { free: "goes in", spring: "goes in sprung", no: "does not go in" }[j.goesIn];
  const clear =
    j.clearance === undefined || !j.nearest ? "" : `; nearest ${j.nearest}, ${j.clearance.toFixed(1)} mm`;
  return `${word} (joint: ${j.joint}): ${j.why}${clear}`;
}
