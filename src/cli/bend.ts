import {
  type Check,
  checksAfter,
  fromOwnEnds,
  onTube,
  type PlannedBend,
  type SmallBend,
  turnedRound,
  turnsOf,
} from "../core/bend/index.ts";
import type { Writer } from "../core/findings/index.ts";
import type { Job } from "../core/job/index.ts";
import { deg } from "../core/numeric/index.ts";
import type { BarPlan } from "../core/plan/index.ts";
import { IDS, BEND_ANSWER as SAYS, sayPoints, sayTurn, written } from "../words/index.ts";
import { barsAsked, type Command, findingJson, openPlan, printJson, report, words } from "./call.ts";

export const bend: Command = {
  run: (args, platform) => {
    const { values, positionals } = words(args, { bar: { type: "string" }, json: { type: "boolean" } });
    const opened = openPlan(positionals, platform);
    if (!opened) return 2;
    const { job, plan, writer } = opened;
    const asked = barsAsked(job, values.bar);
    const found = plan.findings.filter((f) => f.bar !== undefined && asked.includes(f.bar));
    const bars = asked.flatMap((id) => plan.byId.get(id) ?? []);
    if (values.json) {
      const findings = found.map((f) => findingJson(f, writer));
      printJson({ bars: bars.map((b) => bendJson(b, job, writer)), findings }, platform);
    } else for (const b of bars) platform.out(`${bendText(b, job, writer)}\n`);
    return report(found, writer, platform);
  },
};

/** A turn in (−180, 180] degrees; rounding must not make −180 of 180. */
const turnDegrees = (radians: number): number => {
  const d = deg(radians);
  return d <= -179.9999995 ? 180 : d;
};

function bendJson(b: BarPlan, job: Job, writer: Writer): object {
  const { bend: plan, bar } = b;
  const turns = turnsOf(bar, job.bender.turnSide);
  const ends = fromOwnEnds(plan);
  return {
    id: b.id,
    label: bar.label,
    length: plan.length,
    blank: plan.blank,
    trim: plan.trim,
    sawn: plan.blank + plan.trim.A + plan.trim.B,
    fromEnd: bar.fromEnd,
    bends: [...plan.bends, ...plan.small].sort((p, q) => p.n - q.n).map((p) => oneBend(p, b)),
    lastStraight: plan.lastStraight,
    turns: turns.map((t) => ({
      before: t.bend,
      amount: deg(t.amount),
      ...(t.way ? { way: t.way } : {}),
      roundTube: t.roundTube,
      code: t.code,
      says: sayTurn(t, writer),
    })),
    checks: checksAfter(bar, b.leastBack).map((c) => ({
      after: c.bend,
      checks: c.checks.map((k: Check) => ({
        what: k.what,
        value: k.value,
        code: k.across.phrase,
        says: written(k.across, writer, IDS),
      })),
    })),
    ...(ends ? { ownEnds: ends } : {}),
  };
}

/** A bend, or a corner left out; a mark that falls off the tube from that end is not given. */
function oneBend(p: PlannedBend | SmallBend, { bend: plan, bar }: BarPlan): object {
  const [mark, markB] = [onTube(plan, p.mark), onTube(plan, p.markB)];
  const set = "set" in p ? p.set : undefined;
  return {
    n: p.n,
    angle: deg(p.angle),
    rotation: turnDegrees(p.rotation),
    start: p.start,
    ...(mark === undefined ? {} : { mark }),
    ...(markB === undefined ? {} : { markB }),
    ...(bar.die ? { clr: p.clr } : {}),
    straightBefore: p.straightBefore,
    ...(set ? { set: deg(set.set), ...(set.sd === undefined ? {} : { setSd: deg(set.sd) }) } : {}),
    ...("off" in p ? { small: true, off: p.off } : {}),
  };
}

function bendText(b: BarPlan, job: Job, writer: Writer): string {
  const { bend: plan, bar } = b;
  const { length, angle } = writer;
  const lines: string[] = [SAYS.bar(bar.label, b.id, bar.tubeId)];
  const { A, B } = plan.trim;
  lines.push(SAYS.saw(length(plan.blank + A + B), length(plan.blank), length(A), length(B)));
  const [first] = plan.bends;
  if (!first) return [...lines, SAYS.noBends, ""].join("\n");
  const from = bar.fromEnd;
  lines.push(SAYS.die(bar.dieId ?? "?", from));
  const order = from === "A" ? plan.bends : [...plan.bends].reverse();
  const turns = new Map(turnsOf(bar, job.bender.turnSide).map((t) => [t.bend, t]));
  const checks = new Map(checksAfter(bar, b.leastBack).map((c) => [c.bend, c.checks]));
  for (const p of order) {
    const turn = turns.get(p.n);
    if (turn) lines.push(SAYS.line(sayTurn(turn, writer)));
    const set = p.set
      ? SAYS.set(angle(deg(p.set.set)), angle(deg(p.angle)))
      : SAYS.noSet(angle(deg(p.angle)));
    lines.push(SAYS.step(p.n, length(from === "A" ? p.mark : p.markB), set));
    for (const c of checks.get(p.n) ?? [])
      lines.push(SAYS.check(length(c.value), written(c.across, writer, IDS)));
  }
  const ends = fromOwnEnds(plan);
  const round = ends && turnedRound(bar, job.bender.turnSide);
  if (ends && round) {
    const { n } = first;
    lines.push(...SAYS.ownEnds(n, length(ends.A), length(ends.B), sayPoints(n, round, writer)));
  }
  return [...lines, ""].join("\n");
}
