import type { Tube } from "../core/job/index.ts";
import type { CardNow } from "../core/plan/index.ts";
import { sizeOf } from "../core/tube/index.ts";
import type { ShopWriter } from "../core/units/index.ts";

/** "3 · 2026-11-29 · 4dce": the number of a card, its day and the code of its figures; "4, not issued · 4dce". */
export const sayNumber = ({ n, on, code }: CardNow): string =>
  on === undefined ? `${n}, not issued · ${code}` : `${n} · ${on} · ${code}`;

export const sayCard = (card: CardNow): string => `card ${sayNumber(card)}`;

/** Labels in the title block of a card. */
export const FIELD = {
  bar: "Bar",
  inOverview: "Bar in the overview",
  bars: "Bars",
  card: "Card",
  danger: "DANGER",
  examples: "Examples, to be replaced",
  hand: "Hand",
  job: "Job",
  points: "Points",
  readings: "Readings",
  sheet: "Sheet",
  tube: "Tube",
} as const;

/** Figures on a card that are the program's examples. */
export const EXAMPLES = {
  tube: (id: string): string => `tube ${id}`,
  die: (id: string): string => `die ${id}`,
  plate: (id: string): string => `plate ${id}`,
  allowance: "allowance",
} as const;

export const sayOf = (n: number, of: number): string => `${n} of ${of}`;

export type Hand = "left" | "right";

const OTHER = { left: "right", right: "left" } as const;

/** A bar that has a twin, as its title block has it. */
export const sayHand = (hand: Hand): string => `${hand}, twin of the ${OTHER[hand]} one`;

/** Where the dangers of a sheet are read. */
export const sayDangers = (count: number, where: string): string => `${count}, read ${where} first`;
export const WHERE_DANGERS = {
  card: "the bender card",
  findings: "the findings",
  first: "the first sheet",
} as const;

export const DANGER = "DANGER";
export const LOOK_FIRST = "Findings, before cutting";
export const SOURCE = "Source of these figures";

/** "Main hoop, sheet 2 of 3". */
export const saySheet = (title: string, sheet: number, of: number): string =>
  of === 1 ? title : `${title}, sheet ${sheet} of ${of}`;

export const sayScale = (n: number): string => `scale 1 : ${n}`;

/** In place of a part of the cards that is left out. */
export const sayNotPrinted = (why: string): string => `Not printed: ${why}.`;
export const TOO_MANY_SHEETS = {
  strip: { part: "mark strip", instead: "mark the bends with a tape" },
  wrap: (end: string) => ({
    part: `wrap of end ${end}`,
    instead: "print its SVG or DXF file on long paper, or land the bar less shallow",
  }),
} as const;

/** Tube of a bar: "Ø 40.0 mm × 2.00 mm, cold drawn seamless steel". */
export function sayTube(
  tube: Pick<Tube, "od" | "wall" | "material">,
  write: Pick<ShopWriter, "size" | "fine">,
): string {
  const { od, wall } = sizeOf(tube);
  return `Ø ${write.size(od)} × ${write.fine(wall)}${tube.material ? `, ${tube.material}` : ""}`;
}

/** What an end is made to. */
export const sayHosts = {
  square: "nothing, square",
  bars: (names: readonly string[]): string => names.join(" + "),
  plate: (name: string, mirrored: boolean): string =>
    `${mirrored ? "the mirror image of plate" : "plate"} ${name}`,
} as const;
