import type { ShopWriter } from "../core/units/index.ts";
import { pointWords } from "./car-places.ts";
import { sentence } from "./text.ts";

/** The pad on which a reading is put together. */
export const READING_PAD = {
  pad: "Reading pad",
  kinds: "Kind of reading",
  choose: "choose",
  enter: "enter",
  /** What a reading is held on, by how many ends it has. */
  from: "From",
  to: "to",
  place: "Place",
  first: "First point",
  second: "Second point",
  side: "Tape mark on the tube",
  sideTo: "Tape mark on the second tube",
  otherSide: (side: string): string => `second: ${side}`,
  bead: "Bead between tube and tape",
  beadThickness: "Thickness of bead or hook between tube and tape",
  nothing: "nothing",
  noBead: "Nothing between them",
  reading: "Reading",
  held: "Zero of the tape",
  hook: "its hook",
  mark: (size: string): string => `its ${size} mark`,
  heldMark: "Mark of the tape that is held at its first end",
  byHook: "Hold it by its hook",
  noMark: "Give the mark as the tape has it, 0 or more",
  error: "Error",
  ownError: "Error of this reading, ±",
  shops: (usual: string): string => `Use the shop's, ${usual}`,
  keep: "Keep this reading",
} as const;

/** What a reading still lacks. */
export type Lack = "from" | "to" | "place" | "first" | "second" | "same point" | "reading" | "too short";

const LACKS: Readonly<Record<Lack, string>> = {
  from: "Choose where the tape begins",
  to: "Choose where the tape ends",
  place: "Choose a place",
  first: "Choose the first point",
  second: "Choose the second point",
  "same point": "Choose two different points",
  reading: "Enter the reading",
  "too short": "Read it again: it reads less than the mark held",
};
export const sayLack = (lack: Lack): string => LACKS[lack];

/** What a reading is held on. */
export const HELD_ON = {
  unknown: "…",
  corner: (bend: number, bar: string): string => `the outer corner of bend ${bend} of ${bar}`,
  along: (bar: string, size: string, end: "A" | "B"): string => `${bar}, ${size} from end ${end}`,
} as const;

/** The list from which it is picked. */
export const PICK_END = {
  title: (end: 0 | 1, ends: 0 | 1 | 2, isTape: boolean): string =>
    isTape
      ? `${end === 0 ? "First" : "Second"} end of the tape`
      : ends === 1
        ? "Place of the reading"
        : `${end === 0 ? "First" : "Second"} point`,
  inPicture: "Pick it in the picture",
  points: "Points",
  bars: "Bars",
  notFound: "not found yet",
  newPoint: "Add a point",
  place: (bar: string): string => `Place on ${bar}`,
  distance: (bar: string): string => `Distance along ${bar}`,
  fromEnds: ["from end A", "from end B"],
  along: "Distance along it",
  corner: (bend: number): string => `Outer corner of bend ${bend}`,
  cornerIs: "where the outer lines of both legs meet",
} as const;

/** The question after the name of a point. */
export const NEW_POINT = {
  title: "Add a point",
  name: "Name: mark it on the car too, by a punch mark or a scribed cross",
  usual: "point",
  done: "Add the point",
  command: (id: string): string => `add point ${pointWords(id)}`,
} as const;

/** Readings as they were read. */
export const READING_LIST = {
  list: "Readings, the newest first",
  none: "No readings yet.",
  computing: "computing…",
  strike: "Strike out",
  restore: "Restore",
  strikeOf: (reading: string): string => `Strike out: ${reading}`,
  restoreOf: (reading: string): string => `Restore: ${reading}`,
  title: "Strike out this reading",
  reason: "Reason: the reading stays in the list, struck out",
  doesNotFit: "does not fit the others",
  readAgain: "read again",
  struck: (why: string | undefined): string => (why === undefined ? "struck out" : `struck out: ${why}`),
  ownError: (error: string): string => `± ${error}`,
  command: (reading: string): string => `read ${reading}`,
} as const;

/** A picture of how a reading is read, for those who do not see it. */
export const sayPicture = (reading: string, seen: string): string =>
  `${reading.replace(/\.$/, "")}. ${sentence(seen)}`;

/** A reading that a slip of unit explains. */
export const sayLeftOut = (expected: string, slip: string): string =>
  `left out: about ${expected} is expected; was it ${slip}?`;

/** Which cards a measured bar changes. */
export const CHANGED = {
  label: "Cards that change",
  none: (gap: number, { fine }: Pick<ShopWriter, "fine">): string =>
    `No other card changes by more than ${fine(gap)}, the gap that the shop accepts.`,
  title: (cards: number): string => `${cards} ${cards === 1 ? "card changes" : "cards change"}`,
  lost: "It can no longer be placed.",
  already: (progress: string, change: string): string => `Already ${progress}. ${change}`,
} as const;

/** How the figures of a card differ (mm); not finite: every one does. */
interface CardChange {
  readonly most: number;
  readonly blank: number;
  readonly marks: number;
  readonly shape: number;
  readonly copes: Readonly<Record<"A" | "B", number>>;
}

/** What a card's change means at the saw, the bender and the notcher: "Net length 3.2 mm longer. Notch at end A moves up to 1.4 mm.". */
export function sayChange(c: CardChange, length: (mm: number) => string): string {
  if (!Number.isFinite(c.most)) return "It is a different bar now.";
  const changes: string[] = [];
  if (Math.abs(c.blank) >= 0.05)
    changes.push(`Net length ${length(Math.abs(c.blank))} ${c.blank > 0 ? "longer" : "shorter"}`);
  if (c.marks >= 0.05) changes.push(`A mark moves ${length(c.marks)}`);
  if (c.shape >= 0.05) changes.push(`Far end moves ${length(c.shape)}`);
  for (const end of ["A", "B"] as const)
    if (c.copes[end] >= 0.05) changes.push(`Notch at end ${end} moves up to ${length(c.copes[end])}`);
  return changes.map((change) => `${change}.`).join(" ");
}
