import { type CopeResult, joinedArcs, LINES, type Notch } from "../core/cope/index.ts";
import type { Writer } from "../core/findings/index.ts";
import type { End } from "../core/job/index.ts";
import { sinCosDeg } from "../core/numeric/index.ts";
import { type BarPlan, notchAt } from "../core/plan/index.ts";
import { BEND_ANSWER, CALL, COPE_ANSWER, sayArcs, sayZeroLine } from "../words/index.ts";
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
import { notchJson, notchText } from "./notch.ts";

export const cope: Command = {
  run: (args, platform) => {
    const { values, positionals } = words(args, {
      bar: { type: "string" },
      end: { type: "string" },
      every: { type: "string", default: "15" },
      steps: { type: "boolean" },
      first: { type: "string" },
      range: { type: "string" },
      json: { type: "boolean" },
    });
    const every = numberOf("every", values.every, 0.01, 180);
    const believed = believedAngle(values.first, values.range);
    const ends = endsAsked(values.end);
    const opened = openPlan(positionals, platform);
    if (!opened) return 2;
    const { job, plan, writer } = opened;
    const asked = barsAsked(job, values.bar);
    const bars = asked.flatMap((id) => plan.byId.get(id) ?? []);
    const shaped = bars.flatMap((b) =>
      ends.map((end) => ({ b, end, notch: notchAt(plan, b.id, end, believed) })),
    );
    const found = [
      ...plan.findings.filter((f) => f.bar !== undefined && asked.includes(f.bar)),
      ...shaped.flatMap((s) => s.notch?.findings ?? []),
    ];
    const steps = values.steps === true || believed !== undefined;
    if (values.json) {
      const copes = shaped.map((s) => ({
        ...curveJson(s.b.copes[s.end], every),
        ...notchJson(s.b, s.notch, steps),
      }));
      printJson({ copes, findings: found.map((f) => findingJson(f, writer)) }, platform);
    } else for (const s of shaped) platform.out(endText(s.b, s.end, s.notch, every, steps, writer));
    return report(found, writer, platform);
  },
};

function endsAsked(end: string | undefined): readonly End[] {
  if (end === undefined) return ["A", "B"];
  if (end !== "A" && end !== "B") throw new WrongCall(CALL.end(end));
  return [end];
}

function believedAngle(
  first: string | undefined,
  range: string | undefined,
): number | readonly [number, number] | undefined {
  if (first !== undefined && range !== undefined) throw new WrongCall(CALL.firstOrRange);
  if (first !== undefined) return numberOf("first", first, 0, 85);
  if (range === undefined) return undefined;
  const [low, high, extra] = range.split("..");
  if (low === undefined || high === undefined || extra !== undefined) {
    throw new WrongCall(CALL.range(range));
  }
  const both = [numberOf("range", low, 0, 85), numberOf("range", high, 0, 85)] as const;
  return both[0] <= both[1] ? both : [both[1], both[0]];
}

/** Back at any φ: one of the whole degrees, or asked of the joint anew. */
function backAt(made: CopeResult, wall: "outer" | "bore", phi: number): number {
  const curve = made.cope[wall];
  if (Number.isInteger(phi) || !made.joint) {
    const back = curve[Math.floor(phi) % LINES];
    if (back === undefined) throw new Error(`a cope has no line at ${phi}°`);
    return back;
  }
  const [sin, cos] = sinCosDeg(phi);
  return made.joint.back(wall === "outer" ? made.cope.outerRadius : made.cope.boreRadius, cos, sin);
}

const phis = (every: number): number[] => {
  const out: number[] = [];
  for (let i = 0; i * every < 360 - 1e-9; i++) out.push(i * every);
  return out;
};

function curveJson(made: CopeResult, every: number): object {
  const { cope: c } = made;
  const wall = (name: "outer" | "bore") =>
    phis(every).map((phi) => {
      const back = backAt(made, name, phi);
      return { phi, back: Number.isNaN(back) ? null : back };
    });
  return {
    bar: c.bar,
    end: c.end,
    onto: c.onto,
    landing: c.landing,
    out: c.out,
    zero: c.zero,
    zeroLine: c.zeroLine,
    outer: wall("outer"),
    bore: wall("bore"),
    misses: c.misses,
    beyondHost: c.beyondHost,
    kind: c.kind,
    longPoint: { back: c.least, phi: c.leastAt },
    shortPoint: { back: c.greatest },
  };
}

function endText(
  b: BarPlan,
  end: End,
  notch: Notch | undefined,
  every: number,
  steps: boolean,
  writer: Writer,
): string {
  const made = b.copes[end];
  const { cope: c } = made;
  const onto =
    c.kind === "square"
      ? COPE_ANSWER.square
      : c.kind === "plate"
        ? COPE_ANSWER.plate(c.onto[0] ?? "")
        : COPE_ANSWER.onto(c.onto);
  const lines = [COPE_ANSWER.end(BEND_ANSWER.bar(b.bar.label, b.id, b.bar.tubeId), end, onto)];
  if (c.kind === "square") return `${lines[0]}\n\n`;
  lines.push(COPE_ANSWER.zero(sayZeroLine(c.zeroLine), writer.length(c.least), writer.angle(c.leastAt)));
  if (notch) lines.push(...notchText(b, notch, steps, writer));
  if (c.misses.length > 0) lines.push(COPE_ANSWER.misses(sayArcs(joinedArcs(c.misses), writer)));
  if (c.beyondHost.length > 0)
    lines.push(COPE_ANSWER.past(c.onto[0] ?? "", sayArcs(joinedArcs(c.beyondHost), writer)));
  const cell = (n: number): string => (Number.isNaN(n) ? COPE_ANSWER.missed : writer.length(n)).padStart(14);
  lines.push(COPE_ANSWER.head);
  for (const phi of phis(every)) {
    lines.push(
      `${String(Math.round(phi * 100) / 100).padStart(6)}${cell(backAt(made, "outer", phi))}${cell(backAt(made, "bore", phi))}`,
    );
  }
  return `${lines.join("\n")}\n\n`;
}
