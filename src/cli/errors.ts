import type { Writer } from "../core/findings/index.ts";
import { deg } from "../core/numeric/index.ts";
import { type BarErrors, type BarPlan, barErrors, placeErrors } from "../core/plan/index.ts";
import { DRAWS, type WantedErrors } from "../core/trestles/index.ts";
import { ERRORS_ANSWER, IDS, sayScatter, saySource, sayStep, written } from "../words/index.ts";
import {
  barsAsked,
  type Command,
  findingJson,
  numberOf,
  openPlan,
  printJson,
  report,
  words,
} from "./call.ts";

export const errors: Command = {
  run: (args, platform) => {
    const { values, positionals } = words(args, {
      bar: { type: "string" },
      confidence: { type: "string", default: "95" },
      samples: { type: "string", default: "2000" },
      seed: { type: "string", default: "1" },
      json: { type: "boolean" },
    });
    const sampling = {
      confidence: numberOf("confidence", values.confidence, 50, 99.9) / 100,
      samples: Math.round(numberOf("samples", values.samples, 100, 1_000_000)),
      seed: numberOf("seed", values.seed, 0, 4294967295),
    };
    const opened = openPlan(positionals, platform);
    if (!opened) return 2;
    const { job, plan, writer } = opened;
    const asked = barsAsked(job, values.bar);
    const found = plan.findings.filter((f) => f.bar !== undefined && asked.includes(f.bar));
    const wanted = placeErrors(plan, { samples: DRAWS, seed: sampling.seed });
    const bars = asked
      .flatMap((id) => plan.byId.get(id) ?? [])
      .map((b) => ({ b, e: barErrors(plan, b, sampling, wanted.get(b.id)) }));
    if (values.json) {
      const list = bars.map(({ b, e }) => json(b, e, writer));
      printJson({ ...sampling, bars: list, findings: found.map((f) => findingJson(f, writer)) }, platform);
    } else for (const { b, e } of bars) platform.out(text(b, e, sampling.confidence, writer));
    return report(found, writer, platform);
  },
};

const freeEnd = ({ bar }: BarPlan): string => ERRORS_ANSWER.freeEnd(bar.seat.B.kind === "plate");

function json(b: BarPlan, e: BarErrors, writer: Writer): object {
  const { made, wanted } = e;
  return {
    id: b.id,
    length: e.length,
    marks: e.marks,
    angles: e.angles.map(deg),
    turns: e.turns.map(deg),
    landings: wanted?.landings ?? { A: [0, 0, 0], B: [0, 0, 0] },
    ...(wanted?.most ? { most: wanted.most } : {}),
    ...(wanted?.source
      ? {
          source: {
            ...wanted.source,
            name: written(wanted.source.name, writer, IDS),
            code: wanted.source.name.phrase,
            says: saySource(wanted.source, writer, IDS),
          },
        }
      : {}),
    ...(wanted?.sampled ? { sampled: sampledJson(wanted.sampled) } : {}),
    freeEnd: made.freeEnd,
    inCar: made.inCar,
    firstOrder: made.firstOrder,
    within: made.within,
    trim: made.trim,
    steps: made.steps.map((s) => ({
      kind: s.kind,
      n: s.n,
      ...(s.bend === undefined ? {} : { bend: s.bend }),
      sd: s.kind === "angle" || s.kind === "turn" ? deg(s.sd) : s.sd,
      moves: s.moves,
      per: s.per,
      code: s.kind,
      says: sayStep(s, freeEnd(b), writer),
    })),
  };
}

const sampledJson = ({ angles, turns, ...rest }: NonNullable<WantedErrors["sampled"]>): object => ({
  ...rest,
  angles: angles.map(deg),
  turns: turns.map(deg),
});

function text(b: BarPlan, e: BarErrors, confidence: number, writer: Writer): string {
  const { length } = writer;
  const { made, wanted } = e;
  const lines = [ERRORS_ANSWER.bar(b.bar.label, b.id, sayScatter(made, confidence, freeEnd(b), writer))];
  const [first] = made.steps;
  // Of a straight bar the one step is its length: nothing to choose.
  if (first && made.steps.length > 1) lines.push(`  ${sayStep(first, freeEnd(b), writer)}`);
  lines.push(
    ERRORS_ANSWER.leave(length(made.trim.A), length(made.trim.B), length(b.bar.trim.A), length(b.bar.trim.B)),
  );
  if (wanted && wanted.length > 0) {
    const { sampled } = wanted;
    const drawn = sampled ? ERRORS_ANSWER.drawn(length(sampled.length), sampled.samples, sampled.lost) : "";
    lines.push(ERRORS_ANSWER.measured(length(wanted.length), drawn));
    if (wanted.source) lines.push(`  ${saySource(wanted.source, writer, IDS)}`);
  }
  return `${lines.join("\n")}\n`;
}
