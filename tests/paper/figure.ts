export const MM_PER_POINT = 25.4 / 72;

export type Unit = "mm" | "deg" | "count" | "text";

/** A figure as it stands on paper, with half of what its last digit stands for. */
export interface Printed {
  value: number;
  half: number;
  /** Of a fraction of an inch: that the true size is less, or more, than what is printed. */
  mark?: "−" | "+" | "";
}

/** "312.5 mm", "12 5/16 in", "0.044 in", "31.5°", "3": what it says (mm or degrees), and how finely. */
export function printed(text: string, fraction = 16): Printed {
  const inch = /^(-?)(?:(\d+) )?(?:(\d+)\/(\d+)|(\d+))(?: ([−+]))? in$/.exec(text);
  if (inch) {
    const [, sign, whole, n, d, only, mark = ""] = inch;
    const size = Number(whole ?? only ?? 0) + (n ? Number(n) / Number(d) : 0);
    return {
      value: (sign ? -1 : 1) * size * 25.4,
      half: 25.4 / fraction / 2,
      mark: mark as "−" | "+" | "",
    };
  }
  const plain = /^(-?\d+)(?:\.(\d+))?( mm| in|°)?$/.exec(text);
  if (!plain) throw new Error(`no figure: ${JSON.stringify(text)}`);
  const scale = plain[3] === " in" ? 25.4 : 1;
  const value = Number(text.replace(/[^\d.-]/g, ""));
  return { value: value * scale, half: (0.5 / 10 ** (plain[2]?.length ?? 0)) * scale };
}

/** What the second computation makes of a quantity: a figure with what two right computations may differ by, or words. */
export interface Wanted {
  value?: number;
  /** Allowed beyond what the printed digits leave open (mm, degrees). */
  slack?: number;
  words?: string;
  /** For what has several right answers. */
  accepts?: (read: number) => boolean;
}

/** One figure read back from one file. */
export interface Reading {
  file: string;
  where: string;
  quantity: string;
  text: string;
  wanted: string;
  ok: boolean;
}

export const SLACK = 6e-4;

export function agrees(text: string, wanted: Wanted, fraction: number, unitless = ""): boolean {
  if (wanted.words !== undefined) return text === wanted.words;
  const { value, half, mark } = printed(text + unitless, fraction);
  if (wanted.accepts) return wanted.accepts(value);
  const slack = wanted.slack ?? SLACK;
  if (mark !== undefined && !isMarked(mark, Math.abs(wanted.value!) - Math.abs(value), slack)) return false;
  return Math.abs(value - wanted.value!) <= half + slack;
}

/** Less than half a thousandth of an inch apart (mm) is no rounding. */
const SAME = 0.0005 * 25.4;

/** Whether a fraction's mark says which way the true size lies, `off` from what is printed (mm). */
const isMarked = (mark: string, off: number, slack: number): boolean =>
  mark === "" ? Math.abs(off) <= SAME + slack : (mark === "+" ? off : -off) >= SAME - slack;

export const sayWanted = (w: Wanted): string =>
  w.words !== undefined ? JSON.stringify(w.words) : w.accepts ? "another" : `${w.value}`;

/** Where digits stand in a text. */
export const digitRuns = (text: string): [number, number][] =>
  [...text.matchAll(/\d+/g)].map((m) => [m.index, m.index + m[0].length]);
