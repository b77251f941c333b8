import { agrees, digitRuns, type Reading, sayWanted, type Wanted } from "./figure.ts";

/** What a figure belongs to: set by the file's name and by the labels passed on the way down a sheet. */
export interface Place {
  bar?: string;
  end?: "A" | "B";
  bend?: number;
  [more: string]: unknown;
}

/** Where wanted figures come from. */
export interface Oracle {
  fraction: number;
  /** Undefined: the second computation knows of no such quantity here. */
  wanted: (quantity: string, place: Place) => Wanted | Wanted[] | undefined;
  /** All words that a quantity may be in this file. */
  choices: (quantity: string, place: Place) => string[];
  /** A label that sets the place may mean more than its words. */
  pass: (name: string, words: string, place: Place) => void;
}

/**
 * One line of the label table. In `says`, `{kind:quantity}` is a figure to be read back, `{kind=name}` words that say
 * what the figures after them belong to, `{?quantity}` a claim that must be true; `[a|b|]` are alternatives. All else
 * is as printed.
 */
export interface Label {
  says: string;
  /** Sheets that carry it; left out: any. */
  on?: readonly string[];
}

const MEASURE = String.raw`-?(?:\d+(?:\.\d+)? mm|(?:\d+ \d+\/\d+|\d+\/\d+|\d+)(?: [−+])? in|\d+\.\d+ in)`;
const ANGLE = String.raw`-?\d+(?:\.\d+)?°`;
const KINDS: Record<string, string> = {
  length: MEASURE,
  fine: MEASURE,
  size: MEASURE,
  angle: ANGLE,
  compared: MEASURE,
  comparedAngle: ANGLE,
  count: String.raw`\d+`,
  number: String.raw`-?\d+(?:\.\d+)?`,
  letter: "[AB]",
  node: String.raw`A|B|corner \d+`,
  rev: "[0-9a-f]{4}",
  "length*": `${MEASURE}(?:,? ${MEASURE})*`,
  "count*": String.raw`\d+(?: \d+)*?`,
  "angles*": String.raw`\d+ \d+(?:\.\d+)?°(?: \d+ \d+(?:\.\d+)?°)*`,
  "tests*": `set ${ANGLE} got ${ANGLE}(?:, set ${ANGLE} got ${ANGLE})*`,
  "arcs*": `${ANGLE} to ${ANGLE}(?: and ${ANGLE} to ${ANGLE})*`,
};
const ELEMENT: Record<string, RegExp> = {
  "length*": new RegExp(MEASURE, "g"),
  "count*": /\d+/g,
  "angles*": /(?<=\d )\d+(?:\.\d+)?°/g,
  "tests*": /\d+(?:\.\d+)?°/g,
  "arcs*": /\d+(?:\.\d+)?°/g,
};

interface Slot {
  kind: string;
  quantity: string;
  sets: boolean;
  claims: boolean;
}

const escaped = (s: string): string => s.replace(/[.*+?^${}()|[\]\\/]/g, "\\$&");

function compile(label: Label, oracle: Oracle, place: Place): { pattern: RegExp; slots: Slot[] } {
  const slots: Slot[] = [];
  let source = "";
  for (const [part] of label.says.matchAll(/\{[^}]*\}|[[\]|]|[^{}[\]|]+/g)) {
    if (part === "[") source += "(?:";
    else if (part === "]") source += ")";
    else if (part === "|") source += "|";
    else if (!part.startsWith("{")) source += escaped(part);
    else {
      const [, kind, sign, quantity] = /^\{([^:=?]*)([:=?])(.*)\}$/.exec(part)!;
      slots.push({ kind: kind!, quantity: quantity!, sets: sign === "=", claims: sign === "?" });
      if (sign === "?") source += "()";
      else if (kind === "words") {
        const all = [...oracle.choices(quantity!, place)].sort((a, b) => b.length - a.length);
        source += `(${all.map(escaped).join("|") || "(?!)"})`;
      } else if (kind === "count*") {
        // as many as there should be: in inches a figure more would be taken from the length that follows
        const many = oracle.wanted(quantity!, place);
        const n = Array.isArray(many) ? many.length : 0;
        source += n === 0 ? "((?!))" : `(\\d+(?: \\d+){${n - 1}})`;
      } else source += `((?<![\\d./])(?:${KINDS[kind!]})(?![\\d/]))`;
    }
  }
  // figures may be followed by a stop, not by more of themselves
  return { pattern: new RegExp(`(?<![\\w.])${source}`, "g"), slots };
}

export interface Scan {
  readings: Reading[];
  /** Every run of digits on the sheet that no label reads, with what is round it. */
  unread: string[];
  runs: number;
  /** The sentences that were read, by label. */
  labels: Set<string>;
}

/** Reads one text by the table, its words in the order drawn. `held` are spans that another reader has read. */
export function scan(
  text: string,
  labels: readonly Label[],
  oracle: Oracle,
  place: Place,
  file: string,
  held: readonly (readonly [number, number])[] = [],
): Scan {
  const found = labels.flatMap((label) => {
    const { pattern, slots } = compile(label, oracle, place);
    return [...text.matchAll(pattern)].map((m) => ({
      label,
      slots,
      m,
      from: m.index,
      to: m.index + m[0].length,
    }));
  });
  found.sort((a, b) => a.from - b.from || b.to - a.to);
  const readings: Reading[] = [];
  const taken: [number, number][] = held.map(([a, b]) => [a, b]);
  const used = new Set<string>();
  let end = -1;
  for (const { label, slots, m, from, to } of found) {
    if (from < end) continue;
    end = to;
    taken.push([from, to]);
    used.add(label.says);
    slots.forEach((slot, i) => {
      const words = m[i + 1];
      if (slot.sets && words !== undefined) {
        place[slot.quantity] = words;
        oracle.pass(slot.quantity, words, place);
      }
    });
    const where = m[0].length > 90 ? `${m[0].slice(0, 90)}…` : m[0];
    slots.forEach((slot, i) => {
      const words = m[i + 1];
      if (slot.sets || words === undefined) return;
      readings.push(...judge(slot, words, oracle, place, file, where));
    });
  }
  const unread = digitRuns(text)
    .filter(([a, b]) => !taken.some(([p, q]) => a >= p && b <= q))
    .map(([a, b]) => `${text.slice(Math.max(0, a - 45), a)}»${text.slice(a, b)}«${text.slice(b, b + 30)}`);
  return { readings, unread, runs: digitRuns(text).length, labels: used };
}

function judge(
  slot: Slot,
  words: string,
  oracle: Oracle,
  place: Place,
  file: string,
  where: string,
): Reading[] {
  const name = [slot.quantity, place.bar, place.end, place.bend].filter((x) => x !== undefined).join(" ");
  const wanted = oracle.wanted(slot.quantity, place);
  const say = (text: string, want: string, ok: boolean): Reading => ({
    file,
    where,
    quantity: name,
    text,
    wanted: want,
    ok,
  });
  if (wanted === undefined) return [say(words, "nothing", false)];
  if (slot.claims) {
    const one = wanted as Wanted;
    return [say("", one.words ?? "", one.words === "true")];
  }
  const element = ELEMENT[slot.kind];
  if (!element)
    return [say(words, sayWanted(wanted as Wanted), judged(slot, words, wanted as Wanted, oracle))];
  const all = [...words.matchAll(element)].map((e) => e[0]);
  const list = wanted as Wanted[];
  if (all.length !== list.length)
    return [say(words, `${list.length} of them: ${list.map(sayWanted).join(", ")}`, false)];
  return all.map((text, i) => say(text, sayWanted(list[i]!), agrees(text, list[i]!, oracle.fraction)));
}

/** A small size must be written finer than a length, and neither coarser than the job asks for. */
const FINENESS: Record<string, RegExp> = {
  length: /\.\d mm$|(?<![.\d])\d+(?: [−+])? in$|\/\d+(?: [−+])? in$/,
  fine: /\.\d\d mm$|\.\d\d\d in$/,
  size: /\.\d mm$|\.\d\d\d in$/,
  angle: /\.\d°$/,
  // two sizes that would read alike are both written to the thousandth
  compared: /\.\d(\d\d)? mm$|(?<![.\d])\d+(?: [−+])? in$|\/\d+(?: [−+])? in$|\.\d{4} in$/,
  comparedAngle: /\.\d(\d\d)?°$/,
};

function judged(slot: Slot, words: string, wanted: Wanted, oracle: Oracle): boolean {
  if (slot.kind === "words" || slot.kind === "rev") return words === wanted.words;
  const fine = FINENESS[slot.kind];
  if (fine && !fine.test(words)) return false;
  return agrees(words, wanted, oracle.fraction);
}
