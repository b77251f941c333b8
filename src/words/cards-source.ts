import { pointWords } from "./car-places.ts";
import { counted, inLine } from "./text.ts";

/** What a bar was figured from, at the foot of its cards: one line a thing. */
export const SOURCES = {
  mirror: (label: string): string => `Mirror image of ${label} about the centre plane, y = 0.`,
  node: (i: number, count: number, where: string): string =>
    `${i === 0 ? "A" : i === count - 1 ? "B" : `corner ${i}`}: ${where}`,
  path: (nodes: readonly string[], original: boolean): string =>
    `Path${original ? " of the original" : ""} — ${nodes.join("\n")}`,
  follow: (label: string, gap: string): string => `Follows ${label}, gap ${gap} outside to outside.`,
  place: (...xyz: readonly string[]): string => `(${xyz.join(", ")})`,
  at: (place: string): string => `at ${place}`,
  step: (place: string): string => `${place} on from the node before`,
  plate: (name: string, place: string | undefined): string =>
    `flat on plate ${name}${place === undefined ? "" : ` at ${place}`}`,
  point: (
    name: string,
    place: string | undefined,
    sd: readonly string[] | undefined,
    by: string | undefined,
  ) =>
    `point ${pointWords(name)}${place === undefined ? "" : ` ${place}`}${sd ? ` ± ${sd.join(", ")}` : ""}${by === undefined ? "" : ` moved by ${by}`}`,
  on: (host: string, where: string, off: string | undefined, also: readonly string[]): string =>
    `on ${host}, ${where}${off === undefined ? "" : `, off its axis by ${off}`}${also.length > 0 ? `, also notched to ${inLine(also)}` : ""}`,
  along: (size: string, end: string): string => `${size} along from end ${end}`,
  plane: (axis: string, value: string, near: string | undefined): string =>
    `where it crosses ${axis} = ${value}${near === undefined ? "" : `, ${near}`}`,
  near: (place: string): string => `near ${place}`,
  toward: (where: string): string => `closest to ${where}`,
} as const;

export function sayDieOf(w: {
  readonly die: string;
  readonly clr: string;
  readonly springback:
    | { readonly k: number; readonly c: string; readonly less: boolean }
    | readonly { readonly set: string; readonly got: string }[];
  readonly arcFactor: number;
  readonly mark: { readonly by: string; readonly past: boolean } | undefined;
}): string {
  const { springback: s } = w;
  const spring =
    "k" in s
      ? `Springback as stated: got = ${s.k} × set ${s.less ? "−" : "+"} ${s.c}.`
      : s.length === 0
        ? "No test bends yet."
        : `Springback from ${counted(s.length, "test bend")}: ${s.map((t) => `set ${t.set} got ${t.got}`).join(", ")}.`;
  const grows = w.arcFactor === 1 ? "" : ` Arc factor ${w.arcFactor}.`;
  const mark = w.mark
    ? `Marks ${w.mark.by} ${w.mark.past ? "past" : "before"} the start of the bend.`
    : "Marks at the start of the bend.";
  return `Die ${w.die}: centreline radius ${w.clr}. ${spring}${grows} ${mark}`;
}

export const sayShop = (w: {
  readonly A: string;
  readonly B: string;
  readonly gap: string;
  readonly kerf: string;
  readonly steepest: string | undefined;
}): string =>
  `Allowance ${w.A} at end A, ${w.B} at end B. Accepted gap ${w.gap}. Kerf ${w.kerf}.${
    w.steepest === undefined ? "" : ` Notcher up to ${w.steepest} off square.`
  }`;
