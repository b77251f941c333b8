import { readFileSync } from "node:fs";
import { describe, expect, it } from "vitest";
import { easedJob } from "../support/eased.ts";
import { jobOf, TRAP } from "../support/fit.ts";
import { run } from "./run.ts";

const DEMO = "demo/sandling.json";
const trial = readFileSync("tests/corpus/trial-frame.json", "utf8");

/**
 * A survey with all that one says in words: `p` taped in inches from one place and 40 mm too long from another, `m`
 * with a twin on the other side of the floor, `q` with one tape alone. A bar runs to `p`.
 */
const known: Record<string, readonly [number, number, number]> = {
  a: [0, 0, 0],
  b: [2000, 0, 0],
  c: [0, 1500, 0],
  d: [2000, 1500, 100],
  e: [1000, -800, 40],
};
const tape = (from: string, id: string, at: readonly [number, number, number], off = 0) => ({
  tape: [from, id],
  length: Math.hypot(...known[from]!.map((v, i) => v - at[i]!)) + off,
});
const p = [700, 600, 900] as const;
const m = [900, 300, 700] as const;
const measured = JSON.stringify({
  format: "tubewright job",
  version: 2,
  tubes: { t: { od: 40, wall: 2 } },
  points: { ...known, p: {}, m: {}, q: {} },
  readings: [
    ...["a", "b", "c", "d", "e"].map((id) => tape(id, "p", p)),
    { height: "p", z: 900 / 25.4 },
    ...["a", "b", "c"].map((id) => tape(id, "m", m)),
    tape("a", "q", m),
  ],
  bars: { up: { tube: "t", path: [{ point: "a" }, { point: "p" }] } },
});
/** All readings agree, so that a bar's figures rest on the tapes. */
const sound = JSON.stringify({
  format: "tubewright job",
  version: 2,
  tubes: { t: { od: 40, wall: 2 } },
  points: { ...known, p: {} },
  readings: [...["a", "b", "c", "d"].map((id) => tape(id, "p", p)), { height: "p", z: 900 }],
  bars: { up: { tube: "t", path: [{ point: "a" }, { point: "p" }] } },
});

/** A pillar bar to be eased: as it is, with its place a little elsewhere, and with another bar that it could become. */
const eased = (() => {
  const bent = easedJob();
  const now = structuredClone(bent);
  now.dies.d40.clr += 0.5;
  const free = structuredClone(bent);
  free.bars.twin = { ...free.bars["pillar-bar-left"], progress: "laid out" };
  return { bent, now, free };
})();

const isObject = (value: unknown): value is Record<string, unknown> =>
  typeof value === "object" && value !== null && !Array.isArray(value);
const isWords = (value: unknown): boolean =>
  typeof value === "string" && /\p{L}{2,}[,:;.]? (\p{L}{2,}|± ?\d|\d)/u.test(value);
/** Names that the job gives, what a person calls a thing of it, and a zero line's own code ("up", "bend 1"). */
const NAMES = new Set(["label", "bar", "id", "zeroLine"]);

/** Places of an answer that hold a sentence, or a list of them, without as many codes beside it. */
function withoutCode(value: unknown, place = ""): string[] {
  if (Array.isArray(value)) return value.flatMap((v, i) => withoutCode(v, `${place}[${i}]`));
  if (!isObject(value)) return [];
  return Object.entries(value).flatMap(([key, v]) => {
    const at = `${place}.${key}`;
    const sentences = Array.isArray(v) ? v.filter(isWords).length : isWords(v) ? 1 : 0;
    if (sentences === 0 || NAMES.has(key)) return withoutCode(v, at);
    // a list of a finding has its members beside its text, each with its phrase or its name
    if (key === "text" && Array.isArray(value.list) && value.list.every(isObject)) return [];
    const code = value[`${key}Code`] ?? value.code ?? value.phrase;
    const codes = Array.isArray(code) ? code : [code];
    const isCoded = codes.every((c) => typeof c === "string" && /^[a-z][\w-]*$/i.test(c));
    return isCoded && codes.length >= sentences ? [] : [`${at}: ${JSON.stringify(v)}`];
  });
}

/** Sentences of an answer, by key. */
function sentences(value: unknown): string[] {
  if (Array.isArray(value)) return value.flatMap(sentences);
  if (!isObject(value)) return [];
  return Object.entries(value).flatMap(([key, v]) =>
    NAMES.has(key)
      ? []
      : [...((Array.isArray(v) ? v.some(isWords) : isWords(v)) ? [key] : []), ...sentences(v)],
  );
}

const GAPS = "0:0.1,45:0.3,90:0.4,180:0.8,225:0.6,270:0.4,315:0.2";
const SPOT = "height:main-hoop@1500:43.5,height:main-hoop@1200:1085";

describe("a sentence of a JSON answer has its code beside it", () => {
  it.each<[string, string, readonly string[], string?]>([
    ["turns and check sizes", "says", ["bend", DEMO, "--bar", "pillar-bar-left"]],
    ["what stands in the file's way", "advice", ["check", "j"], trial],
    ["a saw's steps", "", ["cope", DEMO, "--bar", "pillar-bar-left", "--steps"]],
    ["test bends", "says", ["die", "j", "--die", "d45", "--test", "93,90,14,14,25"], trial],
    ["errors of the steps", "says", ["errors", DEMO, "--bar", "pillar-bar-left", "--samples", "100"]],
    ["what a length hangs on", "name", ["errors", "j", "--samples", "100"], sound],
    ["readings that do not fit, to take, to settle by", "take", ["survey", "j"], measured],
    ["a height in inches", "likely", ["survey", "j"], measured],
    ["two places as good", "settle", ["survey", "j"], measured],
    ["the next reading", "reading", ["survey", "j"], sound],
    [
      "an order that fails",
      "says",
      ["fit", "j", "--order", "left,right,low,high", "--threads", "1"],
      JSON.stringify(jobOf(TRAP)),
    ],
    ["gaps", "says", ["gaps", DEMO, "--bar", "harness-bar", "--end", "A", "--cut", "10", "--read", GAPS]],
    [
      "a bent bar, one size in inches",
      "leftOut",
      ["trestles", DEMO, "--bar", "pillar-bar-left", "--read", "end-to-end:61.1,leg-B:671,angle-2:43.2"],
    ],
    [
      "nothing but a slip",
      "says",
      ["trestles", DEMO, "--bar", "pillar-bar-left", "--read", "end-to-end:61.1"],
    ],
    ["a tacked bar, one height in inches", "text", ["tacked", DEMO, "--bar", "main-hoop", "--read", SPOT]],
    ["a made bar that is to be eased", "why", ["change", "j", "eased"], JSON.stringify(eased.bent)],
    ["who decides of easing", "advice", ["change", "j", "eased"], JSON.stringify(eased.bent)],
    [
      "what a made bar could become",
      "says",
      ["reuse", "j", "--bar", "pillar-bar-left"],
      JSON.stringify(eased.free),
    ],
    [
      "who decides of easing for another place",
      "advice",
      ["reuse", "j", "--bar", "pillar-bar-left"],
      JSON.stringify(eased.free),
    ],
  ])(
    "%s",
    async (_, key, args, job) => {
      const files = { eased: JSON.stringify(eased.now), ...(job === undefined ? {} : { j: job }) };
      const { out, err } = await run([...args, "--json"], files);
      expect(out, err).toMatch(/^\{/);
      const answer = JSON.parse(out) as unknown;
      if (key !== "") expect(sentences(answer)).toContain(key);
      expect(withoutCode(answer)).toEqual([]);
    },
    180_000,
  );
});
