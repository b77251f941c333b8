import type { Writer } from "../core/findings/index.ts";
import { apart } from "./apart.ts";
import { counted, inLine } from "./text.ts";

/** Lines of what the command line answers, a command each. Lengths and angles come as text with their unit. */

export const BEND_ANSWER = {
  bar: (label: string, id: string, tube: string): string => `${label} (${id}) · ${tube}`,
  saw: (sawn: string, net: string, A: string, B: string): string =>
    `  saw to ${sawn} (net length ${net}, allowance ${A} at end A, ${B} at end B)`,
  noBends: "  no bends",
  die: (die: string, from: string): string =>
    `  die ${die}, feed end ${from} first; marks are from sawn end ${from}`,
  set: (set: string, angle: string): string => `set ${set} to get ${angle}`,
  noSet: (angle: string): string => `bend to ${angle} (die not calibrated: bend short, measure)`,
  step: (n: number, mark: string, set: string): string => `  bend ${n}: mark ${mark}, ${set}`,
  line: (words: string): string => `  ${words}`,
  check: (size: string, where: string): string => `    check ${size}  ${where}`,
  ownEnds: (n: number, A: string, B: string, points: string): readonly string[] => [
    `  or each bend from its own end: bend ${n}, mark ${A} from end A. Turn the tube round for the second bend,`,
    `    mark ${B} from end B; ${points}`,
  ],
} as const;

export const COPE_ANSWER = {
  end: (bar: string, end: string, onto: string): string => `${bar} · end ${end} ${onto}`,
  square: "cut square",
  plate: (plate: string): string => `flat on plate ${plate}`,
  onto: (hosts: readonly string[]): string => `onto ${hosts.join(", ")}`,
  zero: (zero: string, back: string, at: string): string =>
    `  zero line: ${zero}; long point ${back} back from the landing at ${at}`,
  misses: (arcs: string): string => `  misses: ${arcs}`,
  past: (host: string, arcs: string): string => `  past the end of ${host}: ${arcs}`,
  missed: "misses",
  head: `     φ${"outside".padStart(15)}${"bore".padStart(14)}   back from the landing`,
} as const;

export const NOTCH_ANSWER = {
  cutFor: (host: string, cut: string): string => `  cut for ${host}: ${cut}`,
  wrap: "  use the wrap",
  wrapOrCuts: "  use the wrap, or one cut for each host:",
  cut: (cut: string, rough: boolean): string => `  ${rough ? "rough out: " : ""}${cut}`,
  exact: "  the cut is exact: no gap",
  flush: (arcs: string): string => `  no gap where the rim meets the host; it stays open at ${arcs}`,
  leaves: (most: string, at: string, short: string, gap: string, gapAt: string): readonly string[] => [
    `  metal to file: up to ${most}, at ${at}; unfiled the bar stays ${short} short of its seat`,
    `  gap: up to ${gap}, at ${gapAt}`,
  ],
  none: "  no hole saw cut",
  steps: {
    seats: "then it seats",
    flush: "then it seats where the rim meets the host",
    shows: (short: string, gap: string, side: string): string =>
      `at the true angle it stays ${short} short of its seat; gap ${gap} at the ${side}, square to the host`,
    final: "in its final place",
    outboard: (size: string): string => `${size} outboard of the final one`,
    cut: (n: number, angle: string, hole: string, shows: string): string =>
      `  cut ${n}: ${angle} off square, hole centre ${hole}; ${shows}`,
    leave: (size: string, low: string, high: string): string =>
      `  leave ${size} of allowance, if the angle is only known from ${low} to ${high}`,
    holds: (shallower: string, steeper: string): string =>
      `  start shallow and deepen: 5° too shallow loses ${shallower} of length, 5° too steep ${steeper}`,
    fails: (shallower: string, steeper: string): string =>
      `  start at the likeliest angle: 5° too shallow loses ${shallower} of length, 5° too steep ${steeper}`,
  },
} as const;

/** One hole saw cut in a line. */
export function sayCut(w: {
  readonly saw: string;
  readonly angle: string;
  readonly offset: { readonly by: string; readonly counterClockwise: boolean } | undefined;
  readonly clock: string;
  readonly counterClockwise: boolean;
  readonly round: string;
  readonly beyond: string;
  readonly isBeyond: boolean;
  readonly fromBend: string | undefined;
  readonly fromSawn: string;
}): string {
  const way = (counterClockwise: boolean): string => (counterClockwise ? "counter-clockwise" : "clockwise");
  const side = w.offset
    ? `side offset ${w.offset.by} toward the line a quarter turn ${way(w.offset.counterClockwise)} of the heel`
    : "no side offset";
  const bend = w.fromBend === undefined ? "" : `, ${w.fromBend} from the bend`;
  return (
    `hole saw ${w.saw}, ${w.angle} off square, ${side}; ` +
    `heel ${w.clock} ${way(w.counterClockwise)} of the zero line (${w.round} round the tube), looking at the cut end; ` +
    `hole centre ${w.beyond} ${w.isBeyond ? "beyond the long point" : "short of the long point"}${bend}, ${w.fromSawn} in from the sawn end`
  );
}

export const DIE_ANSWER = {
  die: (id: string, tests: number): string =>
    `die ${id}: ${tests === 0 ? "no test bends yet" : counted(tests, "test bend")}`,
  springback: (k: number, c: number, kSd: number, cSd: number): string =>
    `  springback: got = ${k.toFixed(4)} × set ${c < 0 ? "−" : "+"} ${Math.abs(c).toFixed(2)}° (± ${kSd.toFixed(4)}, ± ${cSd.toFixed(2)}°)`,
  radius: (clr: string, sd: string): string => `  radius ${clr} ± ${sd}`,
  arcFactor: (value: number, sd: number): string => `  arc factor ${value.toFixed(4)} ± ${sd.toFixed(4)}`,
} as const;

export const ERRORS_ANSWER = {
  freeEnd: (isFoot: boolean): string => (isFoot ? "the foot" : "end B"),
  bar: (label: string, id: string, scatter: string): string => `${label} (${id}): ${scatter}, end A held`,
  leave: (A: string, B: string, ownA: string, ownB: string): string =>
    `  leave an allowance of ${A} at A or ${B} at B for a bar that comes out short. The job leaves ${ownA} and ${ownB}`,
  measured: (length: string, drawn: string): string =>
    `  from the places measured: length ± ${length}${drawn}`,
  drawn: (length: string, samples: number, lost: number): string =>
    ` (${length} by laying it out on ${samples} sets of places drawn by chance${lost > 0 ? `, ${lost} of which give no such bar` : ""})`,
} as const;

export const SURVEY_ANSWER = {
  none: "no readings in this job",
  noPlaces: "no places",
  unchecked: "  no readings beyond those needed: nothing checks them",
  disagree: (times: number, more: number): string =>
    `  readings disagree by ${times.toFixed(2)} times their stated errors (${more} more than needed)`,
  alone: "checked by no other",
  times: (normalized: number): string => `${Math.abs(normalized).toFixed(1)} times its own ±`,
  reading: (w: {
    readonly index: number;
    readonly what: string;
    readonly read: string;
    readonly residual: string;
    readonly off: string;
    readonly suspect: boolean;
  }): string =>
    `  ${w.index}: ${w.what} reads ${w.read}, computed less read ${w.residual} (${w.off})${w.suspect ? "  <- does not fit" : ""}`,
  without: (readings: readonly number[]): string => `  without ${readings.join(", ")} these places become:`,
  next: (advice: string, point: string, before: string, after: string): string =>
    `  read next: ${advice}; ${point} goes from ± ${before} to ± ${after}`,
  sd: (size: string): string => `± ${size}`,
  exact: "exact",
} as const;

export const GAPS_ANSWER = {
  bar: (bar: string, end: string, square: boolean): string =>
    `${bar}, end ${end} (gaps taken ${square ? "as feelers square to the host" : "along the bar"}, at the outside)`,
  found: (
    w: Readonly<Record<"heel" | "heelSd" | "offset" | "offsetSd" | "short" | "shortSd", string>>,
  ): string =>
    `  found: heel ${w.heel} ± ${w.heelSd}, side offset ${w.offset} ± ${w.offsetSd}, short of its seat by ${w.short} ± ${w.shortSd}`,
  again(at: number, read: number, computed: number, leftOut: boolean, write: Writer): string {
    const [was, is] = apart([read, computed], write.length, write.finer?.length);
    return `  look again at ${write.angle(at)}: it was read ${was}, the others give ${is}${leftOut ? "; it is left out" : ""}`;
  },
  touchesNot: (nearest: string): string =>
    `  push the bar home and read again: by these gaps it touches nowhere (nearest ${nearest})`,
  four: "  read eight gaps: four leave nothing that checks them",
  flat: (bar: string, end: string): string =>
    `bars.${bar}: end ${end} lands on no bar; a flat end needs no notch`,
  noSaw: (bar: string, end: string): string =>
    `bars.${bar}: cut end ${end} to the wrap; no hole saw cut makes it`,
  problem: (bar: string, end: string, problem: string): string => `bars.${bar}: end ${end}: ${problem}`,
} as const;

export const TRESTLES_ANSWER = {
  noBar: (id: string): string =>
    `bars.${id}: check the readings and their units; no bar near the one wanted gives them`,
  unread: "no reading is left to judge it by; read it again",
  bar: (label: string, id: string, words: string): string => `${label} (${id}): ${words}`,
  departures: (all: readonly string[]): string =>
    `  ${all.length > 0 ? all.join("; ") : "nothing differs from the bar wanted by more than its own ±"}`,
  far: (held: string, far: string, off: string): string =>
    `  with end ${held} held as wanted, end ${far} is ${off} off`,
  placed: (off: string, along: string, A: string, B: string): string =>
    `  placed there it is at most ${off} from where it was wanted (${along} along from end A). Allowance there: ${A} at A, ${B} at B`,
  slip: (reading: string): string =>
    `  read ${reading} once more: a slip of the bender or the tape, far outside this shop's errors`,
  become: (id: string, reversed: boolean, verdict: string): string =>
    `  could become ${id}${reversed ? ", turned end for end" : ""}: ${verdict}`,
  cut: (angle: string, heel: string): string => `${angle} off square, clock of the heel ${heel}`,
  cutEnd: (end: string, cut: string, card: string | undefined): string =>
    `  cut end ${end}: ${cut}${card === undefined ? "" : ` (the card has ${card})`}`,
  keep: "  for its wraps and cards put asBuilt of --json into the job",
} as const;

export const TACKED_ANSWER = {
  nothing: (bars: readonly string[]): string =>
    `bars.${bars.join(", bars.")}: check the readings and their units; nothing near the bars wanted gives them`,
  end: (end: string): string => `end ${end}`,
  corner: (n: number): string => `corner ${n}`,
  moved: (bar: string, place: string, by: string, sd: string): string =>
    `${bar}: ${place} is ${by} ± ${sd} from its place`,
  again(n: number, read: number, computed: number, { length, finer }: Writer): string {
    const [was, is] = apart([read, computed], length, finer?.length);
    return `  read number ${n} once more: ${was}, where this shop's errors allow about ${is}`;
  },
  none: (least: string): string => `  no card changes by more than ${least}`,
  stale: (least: string): string => `  figure again before they are sawn (changed by more than ${least}):`,
  change: (bar: string, change: string): string => `    ${bar}: ${change}`,
  already: (progress: string, bar: string, change: string): string =>
    `  already ${progress}, ${bar}: ${change}`,
  lost: (bar: string): string => `  ${bar} no longer has a geometry`,
  keep: "  to keep it, put asBuilt of --json into the job",
  other: "it is another bar now",
  longer: (by: string, longer: boolean): string =>
    `${by} ${longer ? "longer" : "shorter"} than on the old card`,
  mark: (by: string): string => `a mark ${by} elsewhere`,
  farEnd: (by: string): string => `far end ${by} elsewhere`,
  cut: (end: string, by: string): string => `the cut at end ${end} off by up to ${by}`,
} as const;

export const FIT_ANSWER = {
  bar: (n: number, label: string, id: string, words: string): string =>
    `${String(n).padStart(3)}  ${label} (${id})\n       ${words}`,
  line: (words: string): string => `       ${words}`,
  tooLong: (by: string, rests: string): string => `${by} too long ${rests}`,
  untacked: (bar: string, leave: readonly string[]): string =>
    leave.length > 0
      ? `${bar} goes in while ${leave.join(", ")} is not tacked (the least set found)`
      : `${bar}: nothing tried, left untacked, lets it in (a search result, not a proof)`,
  stopped: (seconds: number): string =>
    `stopped after ${counted(seconds, "second")}: the rest was not checked`,
  progress: (done: number, of: number, bar: string, words: string): string =>
    `${done} of ${of}  ${bar}: ${words}`,
  timeUp: "the time was up before all earlier places were checked",
  noCure: "no earlier place in this order cures it",
  before: (bar: string): string => `put in before ${bar}, it does`,
  cure: (bar: string, how: string): string => `${bar} is the first that does not go in; ${how}`,
  seats: "it still seats",
  short: (by: string): string => `it stops ${by} short of its seat`,
  swung: (angle: string, out: string): string =>
    `it rests ${angle} off, its far end ${out} out (a search result)`,
  notBetween: "it did not get between its hosts in what was tried",
  reach: (w: {
    readonly end: string;
    readonly last: string;
    readonly roofOff: string | undefined;
    readonly lowered: { readonly share: string; readonly by: string } | undefined;
    readonly before: readonly { readonly share: string; readonly bar: string }[];
  }): string => {
    const roof = w.roofOff === undefined ? "" : `, ${w.roofOff} with the roof off`;
    const low = w.lowered ? `, ${w.lowered.share} with the cage ${w.lowered.by} lower in the body` : "";
    const weld =
      w.before.length === 0
        ? ""
        : `; weld ${w.before.map((b) => `${b.share} before ${b.bar} goes in`).join(", ")}`;
    return `end ${w.end}: the torch reaches ${w.last} of the ring with all bars in${roof}${low}${weld}`;
  },
  packing: (
    on: readonly [string, string],
    flat: readonly [string, string],
    angle: readonly [string, string],
  ) =>
    `an edge across ${on[0] === on[1] ? on[0] : on.join(" and ")} clears it by ${flat[0]} at A and ${flat[1]} at B (a 90° angle: ${angle[0]} and ${angle[1]})`,
  state: {
    free: "goes in",
    touches: "goes in, touching",
    spring: "goes in sprung",
    byGap: "goes in with a gap",
    no: "does not go in",
    unknown: "not checked",
  },
  unknown: (why: string): string => `${FIT_ANSWER.state.unknown}: ${why}`,
  judged: (w: {
    readonly state: string;
    readonly joint: string;
    readonly why: string;
    readonly through: readonly string[];
    readonly nearest: { readonly id: string; readonly away: string } | undefined;
  }): string => {
    const through = w.through.length > 0 ? `; through ${inLine(w.through)}` : "";
    const clear = w.nearest ? `; nearest ${w.nearest.id}, ${w.nearest.away}` : "";
    return `${w.state} (joint: ${w.joint}): ${w.why}${through}${clear}`;
  },
} as const;

/** A folder of files that takes the place of another. */
export const FOLDER = {
  still: (old: string, why: string): string =>
    `the new files are in place, but some of what was there is still in ${old} (${why})`,
  unchanged: "nothing was changed there",
  unfinished: (making: string, why: string): string =>
    `nothing was changed there, but an unfinished set is left in ${making} (${why})`,
  takenBack: (why: string, state: string): string => `${why}; ${state}`,
} as const;

/** A change with its sign. */
export const saySigned = (value: number, write: Writer["length"]): string =>
  `${value > 0 ? "+" : ""}${write(value)}`;
