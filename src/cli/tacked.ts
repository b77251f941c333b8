import { type Phrase, phrase, type Quantity, type Writer } from "../core/findings/index.ts";
import { type Job, Suggester } from "../core/job/index.ts";
import { rad } from "../core/numeric/index.ts";
import { judgeTacked, type Plan, type TackedAnswer, tackSlips } from "../core/plan/index.ts";
import {
  besidesSlips,
  type CardChange,
  type Over,
  type Slipped,
  type Spot,
  slipFinding,
  type TackReading,
} from "../core/trestles/index.ts";
import { parseLength, writerFor } from "../core/units/index.ts";
import { CALL, TACKED_ANSWER as SAYS, saySlip } from "../words/index.ts";
import {
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

export const tacked: Command = {
  run: (args, platform) => {
    const { values, positionals } = words(args, {
      bar: { type: "string", multiple: true },
      read: { type: "string" },
      foot: { type: "string", default: "2" },
      lean: { type: "string", default: "0.3" },
      json: { type: "boolean" },
    });
    const { read } = values;
    const [id, ...others] = [...new Set(values.bar)];
    if (id === undefined) throw new WrongCall(CALL.nameTacked);
    if (read === undefined) throw new WrongCall(CALL.giveTacked);
    const foot = numberOf("foot", values.foot, 0.01, 100);
    const lean = rad(numberOf("lean", values.lean, 0.01, 20));
    const opened = openPlan(positionals, platform);
    if (!opened) return 2;
    const { job, plan, writer } = opened;
    const ids = [id, ...others] as const;
    if (!ids.every((bar) => plannedBar(opened, bar, platform))) return 1;
    const readings = read.split(",").map((part) => readingOf(part.trim(), ids, job, plan));
    const options = { from: "plan", set: { foot, lean } } as const;
    const slips = tackSlips(plan, id, readings, options);
    const counted = besidesSlips(readings, slips);
    const answer = judgeTacked(
      plan,
      id,
      counted.map((c) => c.reading),
      options,
    );
    if (!answer) {
      platform.err(`${SAYS.nothing(ids)}\n`);
      return 1;
    }
    const { after } = answer;
    const given: Given = { readings, slips, counted: counted.map((c) => c.index) };
    const found = [
      ...readings.flatMap((r, i) =>
        slips.filter((s) => s.index === i).map((s) => slipFinding(id, tackPhrase(r), r.value, s)),
      ),
      ...after.why,
    ];
    if (values.json) {
      const findings = found.map((f) => findingJson(f, writer));
      printJson({ ...json(answer, given), findings }, platform);
    } else platform.out(text(answer, given, job, writer));
    return report(found, writer, platform);
  },
};

/** The readings as given, which of them count, and those that a slip of unit explains. */
interface Given {
  readonly readings: readonly TackReading[];
  readonly counted: readonly number[];
  readonly slips: readonly Slipped[];
}

const KINDS: Readonly<Record<string, { readonly what: TackReading["what"]; readonly over: Over }>> = {
  tape: { what: "tape", over: "outside" },
  "tape-inside": { what: "tape", over: "inside" },
  "tape-centre": { what: "tape", over: "centre" },
  height: { what: "height", over: "outside" },
  "height-under": { what: "height", over: "inside" },
  "height-centre": { what: "height", over: "centre" },
  out: { what: "out", over: "centre" },
  fore: { what: "fore", over: "centre" },
};

function readingOf(said: string, ids: readonly string[], job: Job, plan: Plan): TackReading {
  const [name = "", ...given] = said.split(":").map((s) => s.trim());
  const kind = KINDS[name];
  if (!kind) throw new WrongCall(CALL.readKinds(said, Object.keys(KINDS)));
  const { what, over } = kind;
  const spotsOf = what === "tape" ? 2 : 1;
  const wrong = new WrongCall(CALL.readSpots(said, name, spotsOf));
  const typed = given.pop();
  if (typed === undefined || given.length !== spotsOf) throw wrong;
  const size = parseLength(typed, job.show.length);
  if (!size.ok) throw new WrongCall(CALL.read(said, size.why));
  const spots = given.map((s) => spotOf(said, s, ids, job, plan));
  if (!spots.some((s) => "bar" in s)) throw new WrongCall(CALL.readOnBar(said, ids[0] ?? ""));
  const [from, to] = spots;
  if (from && what !== "tape") return { what, of: from, over, value: size.mm };
  if (from && to && what === "tape") return { what, from, to, over, value: size.mm };
  throw wrong;
}

/** "the height of main-hoop@1200": a reading as it was given, for a warning. */
function tackPhrase(reading: TackReading): Phrase {
  const spot = (s: Spot): Quantity => ({
    text: "bar" in s ? `${s.bar}@${s.along}` : `(${s.at.map((v) => Math.round(v)).join(", ")})`,
  });
  return reading.what === "tape"
    ? phrase("the-tape", { from: spot(reading.from), to: spot(reading.to) })
    : phrase(`the-${reading.what}`, { point: spot(reading.of) });
}

/** A point of the job, or a place on a tacked bar. */
function spotOf(said: string, spot: string, ids: readonly string[], job: Job, plan: Plan): Spot {
  const [bar = "", station] = spot.split("@");
  if (station !== undefined) {
    const planned = plan.byId.get(bar);
    if (!planned || !ids.includes(bar)) throw new WrongCall(CALL.readOther(said, ids, bar));
    const read = parseLength(station, job.show.length);
    if (!read.ok) throw new WrongCall(CALL.read(said, read.why));
    const { length } = planned.bar.centreline;
    if (Math.abs(read.mm) > length)
      throw new WrongCall(CALL.readPast(said, bar, writerFor(job.show).length(length)));
    return { bar, along: read.mm };
  }
  const at = plan.places.job.points[spot]?.at;
  if (at) return { at };
  const close = new Suggester().closest(spot, Object.keys(job.points));
  throw new WrongCall(CALL.readPoint(said, spot, close));
}

/** Of a joint that became another altogether there is no size of the change to give. */
const changeJson = (c: CardChange): object => {
  const sizes = {
    blank: c.blank,
    marks: c.marks,
    shape: c.shape,
    copes: c.copes.A + c.copes.B,
    most: c.most,
  };
  if (Object.values(sizes).every(Number.isFinite)) return { bar: c.id, ...sizes, copes: c.copes };
  const ends = Object.entries(c.copes).filter(([, v]) => Number.isFinite(v));
  const known = Object.entries(sizes).filter(([key, v]) => key !== "copes" && Number.isFinite(v));
  return { bar: c.id, ...Object.fromEntries(known), copes: Object.fromEntries(ends), otherJoint: true };
};

const json = ({ found, paths, after }: TackedAnswer, { readings, counted, slips }: Given): object => {
  const bars = found.bars.map(({ id, moved, sd }) => ({ id, moved, sd }));
  const [first] = bars;
  if (!first) throw new Error("a tacked answer has one bar at least");
  const { id, moved, sd } = first;
  return {
    bar: id,
    moved,
    sd,
    bars,
    readings: readings.map((r, i) => {
      const slip = slips.find((s) => s.index === i);
      return slip
        ? { read: r.value, computed: slip.expected, leftOut: saySlip(slip.slip), code: slip.slip }
        : found.readings[counted.indexOf(i)];
    }),
    suspect: found.suspect === undefined ? undefined : counted[found.suspect],
    asBuilt: paths,
    stale: after.stale.map(changeJson),
    cut: after.cut.map((c) => ({ ...changeJson(c), progress: c.progress })),
    lost: after.lost,
  };
};

function text({ found, after }: TackedAnswer, { counted }: Given, job: Job, writer: Writer): string {
  const { length } = writer;
  const lines = found.bars.map(({ id, moved, sd }) => {
    const most = Math.max(...moved);
    const worst = moved.indexOf(most);
    const within = sd[worst];
    if (within === undefined) throw new Error(`bar ${id} has no place that moved the most`);
    const place =
      worst === 0 ? SAYS.end("A") : worst === moved.length - 1 ? SAYS.end("B") : SAYS.corner(worst);
    return SAYS.moved(id, place, length(most), length(within));
  });
  if (found.suspect !== undefined) {
    const doubted = found.readings[found.suspect];
    const index = counted[found.suspect];
    if (!doubted || index === undefined) throw new Error("a suspect is one of the readings that count");
    lines.push(SAYS.again(index + 1, doubted.read, doubted.computed, writer));
  }
  lines.push(after.stale.length === 0 ? SAYS.none(length(job.shop.gap)) : SAYS.stale(length(job.shop.gap)));
  for (const c of after.stale) lines.push(SAYS.change(c.id, sayChange(c, writer)));
  for (const c of after.cut) lines.push(SAYS.already(c.progress, c.id, sayChange(c, writer)));
  for (const lost of after.lost) lines.push(SAYS.lost(lost));
  lines.push(SAYS.keep);
  return `${lines.join("\n")}\n`;
}

/** "3.2 mm too short; the cut at end A off by up to 1.4 mm". */
function sayChange(c: CardChange, { length }: Writer): string {
  if (!Number.isFinite(c.most)) return SAYS.other;
  const said: string[] = [];
  if (Math.abs(c.blank) >= 0.05) said.push(SAYS.longer(length(Math.abs(c.blank)), c.blank > 0));
  if (c.marks >= 0.05) said.push(SAYS.mark(length(c.marks)));
  if (c.shape >= 0.05) said.push(SAYS.farEnd(length(c.shape)));
  for (const end of ["A", "B"] as const)
    if (c.copes[end] >= 0.05) said.push(SAYS.cut(end, length(c.copes[end])));
  return said.join("; ");
}
