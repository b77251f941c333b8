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
import { sayHint, sayLength, saySlip } from "../words/index.ts";
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
  about: "readings on tacked bars: how they really stand, and which cards that changes",
  usage:
    'tubewright tacked JOB --bar ID [--bar ID …] --read "tape:SPOT:SPOT:1250,height:SPOT:1085" [--foot MM] [--lean DEG] [--json]; a SPOT is a point of the job or BAR@STATION; tape, tape-inside, tape-centre, height (over the top), height-under, height-centre, out, fore; name both bars that a cross tape runs between',
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
    if (id === undefined) throw new WrongCall("name the tacked bar with --bar");
    if (read === undefined) throw new WrongCall('give what was read with --read "height:BAR@STATION:1085"');
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
      platform.err(
        `bars.${ids.join(", bars.")}: nothing near what was wanted gives such readings; check them and their units\n`,
      );
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
  if (!kind) throw new WrongCall(`--read ${said}: there are ${Object.keys(KINDS).join(", ")}`);
  const wants = kind.what === "tape" ? 4 : 3;
  if (parts.length !== wants)
    throw new WrongCall(`--read ${said}: give ${parts[0]}:${wants === 4 ? "SPOT:SPOT" : "SPOT"}:size`);
  const size = parseLength(parts[wants - 1]!, job.show.length);
  if (!size.ok) throw new WrongCall(`--read ${said}: ${sayLength(size.why)}`);
  const spots = parts.slice(1, -1).map((s) => spotOf(said, s, ids, job, plan));
  if (!spots.some((s) => "bar" in s))
    throw new WrongCall(`--read ${said}: name a spot on ${ids[0]}, as ${ids[0]}@400`);
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
    ? `the tape from ${spot(reading.from)} to ${spot(reading.to)}`
    : `${reading.what} of ${spot(reading.of)}`;
}

/** A point of the job, or a place on a tacked bar. */
function spotOf(said: string, spot: string, ids: readonly string[], job: Job, plan: Plan): Spot {
  const [bar = "", station] = spot.split("@");
  if (station !== undefined) {
    if (!ids.includes(bar))
      throw new WrongCall(
        `--read ${said}: a spot lies on ${ids.join(" or ")} or is a point, not on ${bar}; if that is tacked too, name it with another --bar`,
      );
    const read = parseLength(station, job.show.length);
    if (!read.ok) throw new WrongCall(`--read ${said}: ${sayLength(read.why)}`);
    const { length } = plan.byId.get(bar)!.bar.centreline;
    if (Math.abs(read.mm) > length)
      throw new WrongCall(`--read ${said}: ${bar} is ${writerFor(job.show).length(length)} long`);
    return { bar, along: read.mm };
  }
  const at = plan.places.job.points[spot]?.at;
  if (at) return { at };
  const hint = sayHint(new Suggester().closest(spot, Object.keys(job.points)));
  throw new WrongCall(`--read ${said}: no known point is called "${spot}"${hint}`);
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
    const place = worst === 0 ? "end A" : worst === moved.length - 1 ? "end B" : `corner ${worst}`;
    return `${id}: ${place} is ${length(moved[worst]!)} ± ${length(sd[worst]!)} from where it was to be`;
  });
  if (found.suspect !== undefined) {
    const { read, computed } = found.readings[found.suspect]!;
    lines.push(
      `  read number ${counted[found.suspect]! + 1} once more: ${length(read)}, where what this shop scatters by allows about ${length(computed)}`,
    );
  }
  lines.push(
    after.stale.length === 0
      ? `  no card changes by more than ${length(job.shop.gap)}`
      : `  figure anew, before they are sawn (changed by more than ${length(job.shop.gap)}):`,
  );
  for (const c of after.stale) lines.push(`    ${c.id}: ${sayChange(c, writer)}`);
  for (const c of after.cut) lines.push(`  already ${c.progress}, ${c.id}: ${sayChange(c, writer)}`);
  for (const lost of after.lost) lines.push(`  ${lost} has no geometry any more`);
  lines.push("  to keep it, put asBuilt of --json into the job");
  return `${lines.join("\n")}\n`;
}

/** "3.2 mm too short; the cut at end A off by up to 1.4 mm". */
function sayChange(c: CardChange, { length }: Writer): string {
  if (!Number.isFinite(c.most)) return "it is another bar now";
  const said: string[] = [];
  if (Math.abs(c.blank) >= 0.05)
    said.push(`${length(Math.abs(c.blank))} ${c.blank > 0 ? "longer" : "shorter"} than on the old card`);
  if (c.marks >= 0.05) said.push(`a mark ${length(c.marks)} elsewhere`);
  if (c.shape >= 0.05) said.push(`far end ${length(c.shape)} elsewhere`);
  for (const end of ["A", "B"] as const)
    if (c.copes[end] >= 0.05) said.push(`the cut at end ${end} off by up to ${length(c.copes[end])}`);
  return said.join("; ");
}
