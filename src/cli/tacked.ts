import type { Writer } from "../core/findings/index.ts";
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
      ...slips.map((s) =>
        slipFinding(id, { text: sayTack(readings[s.index]!) }, readings[s.index]!.value, s),
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
  const parts = said.split(":").map((s) => s.trim());
  const kind = KINDS[parts[0] ?? ""];
  if (!kind) throw new WrongCall(CALL.readKinds(said, Object.keys(KINDS)));
  const wants = kind.what === "tape" ? 4 : 3;
  if (parts.length !== wants) throw new WrongCall(CALL.readSpots(said, parts[0] ?? "", wants - 2));
  const size = parseLength(parts[wants - 1]!, job.show.length);
  if (!size.ok) throw new WrongCall(CALL.read(said, size.why));
  const spots = parts.slice(1, -1).map((s) => spotOf(said, s, ids, job, plan));
  if (!spots.some((s) => "bar" in s)) throw new WrongCall(CALL.readOnBar(said, ids[0] ?? ""));
  const reading: TackReading =
    kind.what === "tape"
      ? { what: "tape", from: spots[0]!, to: spots[1]!, over: kind.over, value: size.mm }
      : { what: kind.what, of: spots[0]!, over: kind.over, value: size.mm };
  return reading;
}

/** "height of main-hoop@1200": a reading as it was given, for a warning. */
function sayTack(reading: TackReading): string {
  const spot = (s: Spot): string =>
    "bar" in s ? `${s.bar}@${s.along}` : `(${s.at.map((v) => Math.round(v)).join(", ")})`;
  return reading.what === "tape"
    ? SAYS.tape(spot(reading.from), spot(reading.to))
    : SAYS.of(reading.what, spot(reading.of));
}

/** A point of the job, or a place on a tacked bar. */
function spotOf(said: string, spot: string, ids: readonly string[], job: Job, plan: Plan): Spot {
  const [bar = "", station] = spot.split("@");
  if (station !== undefined) {
    if (!ids.includes(bar)) throw new WrongCall(CALL.readOther(said, ids, bar));
    const read = parseLength(station, job.show.length);
    if (!read.ok) throw new WrongCall(CALL.read(said, read.why));
    const { length } = plan.byId.get(bar)!.bar.centreline;
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
  const { id, moved, sd } = bars[0]!;
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
    const worst = moved.indexOf(Math.max(...moved));
    const place =
      worst === 0 ? SAYS.end("A") : worst === moved.length - 1 ? SAYS.end("B") : SAYS.corner(worst);
    return SAYS.moved(id, place, length(moved[worst]!), length(sd[worst]!));
  });
  if (found.suspect !== undefined) {
    const { read, computed } = found.readings[found.suspect]!;
    lines.push(SAYS.again(counted[found.suspect]! + 1, length(read), length(computed)));
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
