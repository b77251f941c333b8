import type { Writer } from "../../core/findings/index.ts";
import type { Verdict } from "../../core/trestles/index.ts";
import { sayEasings } from "../easing.ts";
import { inLine, inSentences } from "../text.ts";

/** What is to be done with a bent bar, and what else would do; the caution of springing is shown with it. */
export interface VerdictWords {
  readonly main: string;
  readonly or?: string;
}

export function verdictWords(verdict: Verdict, writer: Writer): VerdictWords {
  const main = mainOf(verdict, writer);
  const { spring } = verdict;
  if (!spring || verdict.kind === "good" || verdict.kind === "short") return { main };
  const way = spring.by > 0 ? "open" : "together";
  const force = Math.round(spring.force / 10) * 10;
  const size = writer.length(Math.abs(spring.by));
  return { main, or: `spring it ${way} by ${size} by hand, about ${force} N in steel, while it is tacked` };
}

/** The verdict as one run of text. */
export function sayVerdict(verdict: Verdict, writer: Writer): string {
  const { main, or } = verdictWords(verdict, writer);
  return or === undefined ? main : inSentences([main, `or ${or}`]);
}

function mainOf(verdict: Verdict, writer: Writer): string {
  switch (verdict.kind) {
    case "good":
      return "good: cut its ends for the place found and put it in";
    case "moved": {
      const { landings } = verdict.placed;
      const where = (["A", "B"] as const).flatMap((e) => sayMove(e, landings[e].moved, writer));
      return inSentences([`good if ${inLine(where)}`, "cut its ends for that place"]);
    }
    case "ease":
      return sayEasings([verdict, ...(verdict.also ? [verdict.also] : [])], writer);
    case "short":
      return `too short by ${writer.length(verdict.missing)}`;
    case "off":
      return offWords(verdict, writer);
  }
}

function offWords(verdict: Extract<Verdict, { kind: "off" }>, { length }: Writer): string {
  if (verdict.spring) return "not for this place as it is";
  if (!verdict.placed) return "not for this place: it cannot be laid on its hosts";
  return inSentences([
    `not for this place: it is ${length(verdict.placed.worst.off)} from where it was wanted`,
    "no easing of one or two bends by 2° or less mends that",
  ]);
}

/** "end A landed 4.0 mm lower", by the greatest of the three ways in the car; nothing for less than 0.05 mm. */
function sayMove(end: string, [x, y, z]: readonly [number, number, number], { length }: Writer): string[] {
  const size = Math.hypot(x, y, z);
  if (size < 0.05) return [];
  const ways = [
    { by: x, names: ["farther forward", "farther back"] },
    { by: y, names: ["farther left", "farther right"] },
    { by: z, names: ["higher", "lower"] },
  ] as const;
  const most = ways.reduce((a, b) => (Math.abs(b.by) > Math.abs(a.by) ? b : a));
  return [`end ${end} landed ${length(size)} ${most.names[most.by > 0 ? 0 : 1]}`];
}
