import type { SawCut } from "../core/cope/index.ts";
import type { Writer } from "../core/findings/index.ts";
import type { End } from "../core/job/index.ts";
import { deg, rad, wrapPi } from "../core/numeric/index.ts";
import { type Felt, figuredJoint } from "../core/plan/index.ts";
import {
  type GapReading,
  type GapsRead,
  type GapWay,
  type NextCut,
  nextCut,
  readGaps,
} from "../core/trestles/index.ts";
import { parseLength } from "../core/units/index.ts";
import { CALL, GAPS_ANSWER, sayGapProblem, sayNextCut } from "../words/index.ts";
import { barsAsked, type Command, numberOf, openPlan, printJson, report, WrongCall, words } from "./call.ts";

/** A feeler at a joint is held at a mark by hand (mm, one standard deviation): what D1 of the checks assumes. */
const FEELER = "0.25";

export const gaps: Command = {
  run: (args, platform) => {
    const { values, positionals } = words(args, {
      bar: { type: "string" },
      end: { type: "string" },
      cut: { type: "string" },
      read: { type: "string" },
      roll: { type: "string", default: "0" },
      outboard: { type: "string", default: "0" },
      along: { type: "boolean" },
      sd: { type: "string", default: FEELER },
      json: { type: "boolean" },
    });
    const { bar, end, cut } = values;
    if (bar === undefined) throw new WrongCall(CALL.nameBar);
    if (end !== "A" && end !== "B") throw new WrongCall(CALL.nameEnd);
    if (cut === undefined) throw new WrongCall(CALL.giveCut);
    if (values.read === undefined) throw new WrongCall(CALL.giveGaps);
    const notch = rad(numberOf("cut", cut, 0, 85));
    const roll = rad(numberOf("roll", values.roll, -180, 180));
    const sd = numberOf("sd", values.sd, 0.001, 10);
    const outboard = lengthOf("outboard", values.outboard, "mm");
    const opened = openPlan(positionals, platform);
    if (!opened) return 2;
    const { job, plan, writer } = opened;
    barsAsked(job, bar);
    const readings = readingsOf(values.read, job.show.length);
    const figured = figuredJoint(plan, bar, end);
    if (!figured.ok) {
      platform.err(`${NO_JOINT[figured.why](bar, end)}\n`);
      return 1;
    }
    const { joint } = figured;
    const made: SawCut = {
      ...joint.cut,
      notch,
      clock: joint.cut.clock + roll,
      centre: joint.cut.centre - outboard,
    };
    const way: GapWay = values.along ? "along" : "square";
    const found = readGaps(joint, made, readings, { sd, way });
    if (!found.ok) {
      platform.err(`${GAPS_ANSWER.problem(bar, end, sayGapProblem(found.problem, writer))}\n`);
      return 1;
    }
    const next = nextCut(joint, made, found.read, { outboard, gap: job.shop.gap });
    const lines = sayNextCut(found.read, next, made.clock, writer);
    const says = lines.map((line) => line.says);
    if (values.json) {
      const code = lines.map((line) => line.code);
      printJson({ ...json(bar, end, way, found.read, next), code, says }, platform);
    } else platform.out(text(bar, end, way, found.read, says, writer));
    return report([], writer, platform);
  },
};

function lengthOf(name: string, value: string, assumed: "mm" | "in"): number {
  const read = parseLength(value, assumed);
  if (!read.ok) throw new WrongCall(CALL.length(name, value, read.why));
  return read.mm;
}

/** `45:0.9` is 0.9 mm at 45°; with a unit, as people write it. In a job that shows inches a plain number is inches. */
function readingsOf(text: string, assumed: "mm" | "in"): GapReading[] {
  return text.split(",").map((part) => {
    const [phi, gap, extra] = part.split(":").map((s) => s.trim());
    if (!phi || !gap || extra !== undefined) throw new WrongCall(CALL.gap(part.trim()));
    const at = numberOf("read", phi, -360, 360);
    const size = lengthOf("read", gap, assumed);
    if (size < 0) throw new WrongCall(CALL.gapBelow(part.trim()));
    return { phi: at, gap: size };
  });
}

/** Why there is no joint to feel gaps at. */
const NO_JOINT: Readonly<Record<Extract<Felt, { ok: false }>["why"], (bar: string, end: End) => string>> = {
  "no bar": CALL.noGeometry,
  flat: GAPS_ANSWER.flat,
  "no saw": GAPS_ANSWER.noSaw,
};

function json(bar: string, end: End, way: GapWay, read: GapsRead, next: NextCut): object {
  const { joint, sd } = read;
  return {
    bar,
    end,
    read: way,
    offSquare: deg(joint.notch),
    clock: deg(wrapPi(joint.clock)),
    sideOffset: joint.offset,
    standsOff: joint.standsOff,
    sd: {
      offSquare: deg(sd.notch),
      clock: deg(sd.clock),
      sideOffset: sd.offset,
      standsOff: sd.standsOff,
    },
    readings: read.readings,
    suspect: read.suspect,
    leftOut: read.leftOut === true,
    touches: read.touches,
    next: {
      offSquare: deg(next.cut.notch),
      steeper: deg(next.steeper),
      clock: deg(wrapPi(next.cut.clock)),
      roll: deg(next.roll),
      rollRound: next.rollRound,
      sideOffset: next.cut.offset,
      aside: next.aside,
      centreBack: next.cut.centre,
      inboard: next.inboard,
      takes: next.takes,
      short: next.short,
      heldBack: next.heldBack,
      final: next.final,
    },
  };
}

function text(
  bar: string,
  end: End,
  way: GapWay,
  read: GapsRead,
  says: readonly string[],
  writer: Writer,
): string {
  const { length, angle } = writer;
  const { joint, sd } = read;
  const lines = [GAPS_ANSWER.bar(bar, end, way === "square"), ...says.map((line) => `  ${line}`)];
  lines.push(
    GAPS_ANSWER.found({
      heel: angle(deg(wrapPi(joint.clock))),
      heelSd: angle(deg(sd.clock)),
      offset: length(joint.offset),
      offsetSd: length(sd.offset),
      short: length(joint.standsOff),
      shortSd: length(sd.standsOff),
    }),
  );
  const bad = read.suspect === undefined ? undefined : read.readings[read.suspect];
  if (bad) lines.push(GAPS_ANSWER.again(bad.phi, bad.read, bad.computed, read.leftOut === true, writer));
  if (read.touches > 3 * sd.standsOff) lines.push(GAPS_ANSWER.touchesNot(length(read.touches)));
  if (read.readings.length === 4) lines.push(GAPS_ANSWER.four);
  return `${lines.join("\n")}\n`;
}
