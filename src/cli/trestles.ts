import { placesOf } from "../core/bar/index.ts";
import type { SawCut } from "../core/cope/index.ts";
import type { Writer } from "../core/findings/index.ts";
import type { End } from "../core/job/index.ts";
import { deg, rad, wrapPi } from "../core/numeric/index.ts";
import {
  type BarPlan,
  type BentAnswer,
  bentSlips,
  blankOf,
  judgeBent,
  notchAt,
  type Plan,
  restate,
} from "../core/plan/index.ts";
import {
  type AsBent,
  type BarShape,
  type BentReading,
  type Blank,
  besidesSlips,
  readingProblem,
  type Slipped,
  sizePhrase,
  slipFinding,
  type Verdict,
} from "../core/trestles/index.ts";
import { parseLength } from "../core/units/index.ts";
import {
  CALL,
  cautionFor,
  FORCES,
  IDS,
  TRESTLES_ANSWER as SAYS,
  sayBentProblem,
  sayDepartures,
  saySlip,
  sayVerdict,
  WHO_DECIDES,
  written,
} from "../words/index.ts";
import {
  ADVICE,
  type Command,
  findingJson,
  numberOf,
  openPlan,
  plannedBar,
  printJson,
  report,
  WrongCall,
  words,
} from "./call.ts";

export const trestles: Command = {
  run: (args, platform) => {
    const { values, positionals } = words(args, {
      bar: { type: "string" },
      read: { type: "string" },
      slide: { type: "string", default: "10" },
      aside: { type: "string", default: "10" },
      json: { type: "boolean" },
    });
    const { bar: id } = values;
    if (id === undefined) throw new WrongCall(CALL.nameBar);
    if (values.read === undefined) throw new WrongCall(CALL.giveBent);
    const freedom = {
      slide: numberOf("slide", values.slide, 0.1, 500),
      aside: numberOf("aside", values.aside, 0.1, 500),
    };
    const opened = openPlan(positionals, platform);
    if (!opened) return 2;
    const { job, plan, writer } = opened;
    const planned = plannedBar(opened, id, platform);
    if (!planned) return 1;
    const blank = blankOf(planned);
    const readings = readingsOf(values.read, blank, job.show.length);
    const slips = bentSlips(plan, planned, readings);
    const found = readings.flatMap((r, i) =>
      slips.filter((s) => s.index === i).map((s) => slipFinding(id, sizePhrase(r), r.value, s)),
    );
    const counted = besidesSlips(readings, slips);
    const answer = judgeBent(
      plan,
      planned,
      counted.map((c) => c.reading),
      freedom,
    );
    if (!answer) {
      platform.err(`${SAYS.noBar(id)}\n`);
      return 1;
    }
    const read: Read = { readings, slips, counted: counted.map((c) => c.index) };
    const isUnread = counted.length === 0;
    const anew = isUnread ? undefined : cutAnew(plan, id, answer.verdict);
    if (values.json) {
      const findings = found.map((f) => findingJson(f, writer));
      const said = isUnread ? unreadJson(id, blank, read, answer) : json(id, blank, read, answer, writer);
      printJson({ ...said, ...anewJson(anew), findings, ...ADVICE }, platform);
    } else if (isUnread) platform.out(`${SAYS.bar(planned.bar.label, id, SAYS.unread)}\n`);
    else
      platform.out(
        `${text(planned, blank, read, answer, writer)}${anewText(anew, writer)}${cautions(answer)}`,
      );
    return report(found, writer, platform);
  },
};

/** What goes with a force, and with bending a bent bar once more. */
function cautions({ verdict, others }: BentAnswer): string {
  const all = [verdict, ...others.map((m) => m.verdict)];
  const sprung = all.some((v) => v.spring) ? [`${cautionFor("sprung")} ${FORCES}`] : [];
  const isRule = sprung.length > 0 || all.some((v) => v.kind === "ease");
  return isRule ? `${[...sprung, WHO_DECIDES].map((s) => `  ${s}`).join("\n")}\n` : "";
}

/** The readings as given, which of them count, and those that a slip of unit explains. */
interface Read {
  readonly readings: readonly BentReading[];
  readonly counted: readonly number[];
  readonly slips: readonly Slipped[];
}

/** The cuts of a bar that is good for its place, figured for where it really comes to lie. */
function cutAnew(plan: Plan, id: string, verdict: Verdict) {
  if (verdict.kind !== "good" && verdict.kind !== "moved") return undefined;
  const { bar, landings } = verdict.placed;
  const over = { A: landings.A.spare, B: landings.B.spare };
  const asBuilt = { [id]: { path: placesOf(bar.centreline), over } };
  const { plan: after } = restate(plan, asBuilt);
  const ends = (["A", "B"] as const).flatMap((end) => {
    const [was, cut] = [plan, after].map((p) => notchAt(p, id, end)?.saw?.cut);
    return cut ? [{ end, cut, ...(was ? { was } : {}) }] : [];
  });
  return { asBuilt, ends };
}

type Anew = ReturnType<typeof cutAnew>;

const cutJson = ({ notch, clock }: SawCut): object => ({ offSquare: deg(notch), clock: deg(wrapPi(clock)) });

const anewJson = (anew: Anew): object =>
  anew
    ? {
        asBuilt: anew.asBuilt,
        cuts: anew.ends.map(({ end, cut, was }) => ({
          end,
          ...cutJson(cut),
          ...(was ? { card: cutJson(was) } : {}),
        })),
      }
    : {};

function anewText(anew: Anew, { angle }: Writer): string {
  if (!anew) return "";
  const said = ({ notch, clock }: SawCut): string => SAYS.cut(angle(deg(notch)), angle(deg(wrapPi(clock))));
  const lines = anew.ends.map(({ end, cut, was }) => SAYS.cutEnd(end, said(cut), was && said(was)));
  lines.push(SAYS.keep);
  return `${lines.join("\n")}\n`;
}

function readingsOf(text: string, blank: Blank, assumed: "mm" | "in"): BentReading[] {
  return text.split(",").map((part) => {
    const said = part.trim();
    const [name, value, extra] = said.split(":").map((s) => s.trim());
    if (!name || !value || extra !== undefined) throw new WrongCall(CALL.readSize(said));
    const kind = kindOf(name, blank);
    if (!kind) throw new WrongCall(CALL.readName(said, name));
    const size =
      kind.what === "angle" ? rad(numberOf("read", value, -360, 360)) : lengthOf(said, value, assumed);
    const reading = { ...kind, value: size } as BentReading;
    const problem = readingProblem(reading, blank.shape);
    if (problem !== undefined) throw new WrongCall(`--read ${said}: ${sayBentProblem(problem)}`);
    return reading;
  });
}

function lengthOf(said: string, value: string, assumed: "mm" | "in"): number {
  const read = parseLength(value, assumed);
  if (!read.ok) throw new WrongCall(CALL.read(said, read.why));
  return read.mm;
}

type Kind = BentReading extends infer R ? (R extends BentReading ? Omit<R, "value" | "sd"> : never) : never;

function kindOf(name: string, { shape, fromEnd }: Blank): Kind | undefined {
  if (name === "end-to-end") return { what: "end-to-end" };
  const leg = /^leg-([AB])$/.exec(name);
  if (leg) return { what: "leg", end: leg[1] as End };
  const across = /^across-(\d+)-(\d+)$/.exec(name);
  if (across) return { what: "across", legs: [Number(across[1]), Number(across[2])] };
  const angle = /^angle-(\d+)$/.exec(name);
  if (angle) return { what: "angle", bend: Number(angle[1]) };
  const flat = /^off-flat-([AB])(?:-(\d+))?$/.exec(name);
  // Without a bend named, the plane is that of the bend made first, as on the bender card.
  const made = shape.numbers.at(fromEnd === "A" ? 0 : -1) ?? 1;
  if (flat) return { what: "off-flat", end: flat[1] as End, bend: flat[2] ? Number(flat[2]) : made };
  return undefined;
}

const shapeJson = (shape: BarShape | AsBent["sd"]) => ({
  angles: shape.angles.map(deg),
  turns: shape.turns.map(deg),
  straights: shape.straights,
});

function placedJson(verdict: Verdict): object {
  if (!verdict.placed) return {};
  const { landings, worst } = verdict.placed;
  return { landings, worst };
}

/** What was read, beside what the bar found has there; of one left out, what was to be expected and the slip. */
function readingsJson({ readings, counted, slips }: Read, { bent }: Pick<BentAnswer, "bent">): object[] {
  const size = (r: BentReading, v: number): number => (r.what === "angle" ? deg(v) : v);
  return readings.map((r, i) => {
    const said = { what: r.what, read: size(r, r.value) };
    const slip = slips.find((s) => s.index === i);
    if (slip) return { ...said, computed: slip.expected, leftOut: saySlip(slip.slip), code: slip.slip };
    const fitted = bent.readings[counted.indexOf(i)];
    if (!fitted) throw new Error(`reading ${i} counts, but was not fitted`);
    const { computed, normalized } = fitted;
    return { ...said, computed: size(r, computed), normalized };
  });
}

/** Where every reading was left out: the bar as wanted, within what the shop's work scatters by. */
const unreadJson = (id: string, blank: Blank, read: Read, answer: BentAnswer): object => ({
  bar: id,
  wanted: shapeJson(blank.shape),
  asBent: shapeJson(answer.bent.shape),
  sd: shapeJson(answer.bent.sd),
  readings: readingsJson(read, answer),
  verdict: { kind: "unread", code: "unread", says: SAYS.unread },
});

function json(id: string, blank: Blank, read: Read, answer: BentAnswer, writer: Writer): object {
  const { bent, verdict, freeEnd, others } = answer;
  return {
    bar: id,
    wanted: shapeJson(blank.shape),
    asBent: shapeJson(bent.shape),
    sd: shapeJson(bent.sd),
    readings: readingsJson(read, answer),
    suspect: bent.suspect === undefined ? undefined : read.counted[bent.suspect],
    widened: bent.widened,
    freeEnd,
    verdict: {
      kind: verdict.kind,
      ...(verdict.kind === "ease" ? { bend: verdict.bend, by: deg(verdict.by) } : {}),
      ...(verdict.kind === "ease" && verdict.also
        ? { also: { bend: verdict.also.bend, by: deg(verdict.also.by) } }
        : {}),
      ...(verdict.spring ? { spring: { by: verdict.spring.by, force: verdict.spring.force } } : {}),
      ...(verdict.kind === "short" ? { end: verdict.end, missing: verdict.missing } : {}),
      ...placedJson(verdict),
      code: verdict.kind,
      says: sayVerdict(verdict, writer),
    },
    couldBecome: others.map((m) => ({
      bar: m.id,
      reversed: m.reversed,
      ...placedJson(m.verdict),
      code: m.verdict.kind,
      says: sayVerdict(m.verdict, writer),
    })),
  };
}

function text(
  planned: BarPlan,
  blank: Blank,
  { readings, counted }: Read,
  { bent, verdict, freeEnd, others }: BentAnswer,
  writer: Writer,
): string {
  const { length } = writer;
  const departures = sayDepartures(bent, blank.shape, writer);
  const far = blank.fromEnd === "A" ? "B" : "A";
  const lines = [
    SAYS.bar(planned.bar.label, planned.id, sayVerdict(verdict, writer)),
    SAYS.departures(departures),
    SAYS.far(blank.fromEnd, far, length(freeEnd)),
  ];
  if (verdict.placed) {
    const { landings, worst } = verdict.placed;
    lines.push(
      SAYS.placed(length(worst.off), length(worst.along), length(landings.A.spare), length(landings.B.spare)),
    );
  }
  if (bent.suspect !== undefined) {
    const r = counted.map((i) => readings[i])[bent.suspect];
    if (!r) throw new Error("a suspect is one of the readings that count");
    lines.push(SAYS.slip(written(sizePhrase(r), writer, IDS)));
  }
  for (const m of others) lines.push(SAYS.become(m.id, m.reversed, sayVerdict(m.verdict, writer)));
  return `${lines.join("\n")}\n`;
}
