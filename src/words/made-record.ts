import type { BentTo, End, SawnTo } from "../core/job/index.ts";
import type { MadeVerdict } from "../core/made/index.ts";
import { rad } from "../core/numeric/index.ts";
import type { CutFigures, NotchFigures, Sides } from "../core/plan/index.ts";
import type { ShopWriter } from "../core/units/index.ts";
import { apart } from "./apart.ts";
import { sayClockFrom } from "./cards-clock.ts";
import { sayTube } from "./cards-common.ts";
import { sayMade } from "./made.ts";
import { fromSawn, NO_OFFSET } from "./notcher.ts";

/** One figure of a step that is done; `wanted` where the plan has another one now. */
export interface RecordLine {
  readonly what: string;
  readonly made: string;
  readonly wanted?: string;
}

/** Figures that differ by less are the same (mm, degrees). */
const SAME = 0.05;

/** What is read of a step that is done: pages, cards and tables. */
export const AS_MADE = {
  label: "Record of what was made",
  changed: "The plan has changed since",
  sawn: "Sawn length",
  record: {
    bender: (label: string): string => `Bender record — ${label}`,
    saw: (label: string): string => `Saw record — ${label}`,
    notcher: (label: string): string => `Notcher record — ${label}`,
  },
  /** At the head of a record. */
  head: {
    sawn: (length: string): string => `Sawn to ${length}: this is a record.`,
    bent: (length: string): string => `Sawn to ${length} and bent: this is a record.`,
    notched: (end: End): string => `End ${end} is notched: this is a record.`,
  },
  heading: {
    sawn: "As sawn",
    bent: "As bent",
    madeTo: "Bent to these figures",
    notched: (end: End): string => `End ${end} as notched`,
  },
  columns: ["Figure", "Made", "Wanted now"],
  sawnTo: "SAWN LENGTH",
  /** Under the sawn length, on the card of a bar that is still to be bent. */
  sawnBelow: (wanted: string | undefined): string =>
    `This bar is sawn${wanted === undefined ? "" : `; wanted now: ${wanted}`}.`,
  /** In a title block: "to card 3". */
  field: "Made",
  fieldTo: (n: number): string => `to card ${n}`,
  /** Of a length that is sawn, in a table. */
  cell: (length: string): string => `${length}, sawn`,
  ends: (ends: readonly End[]): string => ends.map((end) => `end ${end} notched`).join(", "),
  toCard: (n: number): string => `made to card ${n}`,
  /** What the plan has in place of a figure that was made. */
  wanted: (size: string): string => `wanted now: ${size}`,
  turns: "Turns count clockwise, looking from A toward B.",
  markSawn: "Mark as sawn",
  markEnd: (end: End): string => `Mark end ${end} notched`,
} as const;

/** The paper in the shop has other figures than the plan now. */
export const OLD_PAPER = {
  label: "Card out of date",
  says: (had: number, now: number): string =>
    `Print the card again: the card in the shop is ${had}, the plan is now ${now}.`,
} as const;

/** Between what is made and what is wanted: `wanted` only where they differ, with enough digits to show it. */
function compared(
  what: string,
  made: number,
  wanted: number,
  write: ShopWriter,
  kind: "length" | "angle" | "size" | "fine",
): RecordLine {
  if (Math.abs(made - wanted) < SAME) return { what, made: write[kind](made) };
  const finer = kind === "angle" ? write.finer?.angle : write.finer?.length;
  const [said = "", now = ""] = apart([made, wanted], write[kind], finer);
  return { what, made: said, wanted: now };
}

const worded = (what: string, made: string, wanted: string): RecordLine =>
  made === wanted ? { what, made } : { what, made, wanted };

/** A bar as it was sawn. */
export function sawnLines({ made, wanted }: Sides<SawnTo>, write: ShopWriter): readonly RecordLine[] {
  const tube = worded("Tube", sayTube(made.tube, write), sayTube(wanted.tube, write));
  return [
    compared(AS_MADE.sawn, made.length, wanted.length, write, "length"),
    ...(tube.wanted === undefined ? [] : [tube]),
  ];
}

/** A bar as it was bent: the end fed first, the die, then bend by bend in the order of bending. */
export function bentLines({ made, wanted }: Sides<BentTo>, write: ShopWriter): readonly RecordLine[] {
  const die = ({ die: { id, clr } }: BentTo): string =>
    `${id === undefined ? "" : `${id}, `}centreline radius ${write.length(clr)}`;
  const order = made.fed === "A" ? made.bends : [...made.bends].reverse();
  const alike = made.bends.length === wanted.bends.length;
  return [
    worded("End fed first", `end ${made.fed}`, `end ${wanted.fed}`),
    worded("Die", die(made), die(wanted)),
    ...(alike ? [] : [worded("Bends", `${made.bends.length}`, `${wanted.bends.length}`)]),
    ...order.flatMap((b) => {
      const now = (alike && wanted.bends.find((w) => w.n === b.n)) || b;
      const set = b.set ?? b.angle;
      return [
        ...(b.n === 1
          ? []
          : [{ ...compared(`Turn before bend ${b.n}`, b.turn, near(b.turn, now.turn), write, "angle") }]),
        compared(`Mark of bend ${b.n}, from sawn end ${made.fed}`, b.mark, now.mark, write, "length"),
        ...(b.set === undefined
          ? []
          : [compared(`Angle set, bend ${b.n}`, set, now.set ?? now.angle, write, "angle")]),
        compared(`Angle of bend ${b.n}`, b.angle, now.angle, write, "angle"),
      ];
    }),
  ];
}

/** An angle written as near another one as whole turns bring it (degrees). */
const near = (to: number, angle: number): number => angle + 360 * Math.round((to - angle) / 360);

/** An end as it was notched. */
export function notchLines(
  end: End,
  { made, wanted }: Sides<NotchFigures>,
  write: ShopWriter,
): readonly RecordLine[] {
  const many = made.cuts.length > 1;
  const cuts = made.cuts.flatMap((c, i) =>
    cutLines(end, many ? `Cut ${i + 1}: ` : "", c, wanted.cuts[i] ?? c, write),
  );
  return [
    ...(made.by === wanted.by ? [] : [worded("Method", METHOD[made.by], METHOD[wanted.by])]),
    ...(made.by === "wrap" ? [{ what: "Method", made: METHOD.wrap }] : []),
    ...cuts,
    ...flatLines(made, wanted, write),
    compared("Net length with both ends", made.finished, wanted.finished, write, "length"),
  ];
}

const METHOD = { "hole saw": "hole saw", wrap: "to its wrap", saw: "flat" } as const;

function cutLines(
  end: End,
  cut: string,
  made: CutFigures,
  wanted: CutFigures,
  write: ShopWriter,
): readonly RecordLine[] {
  const clock = (c: CutFigures): string => sayClockFrom(rad(c.clock), write);
  const isClock = Math.abs(near(made.clock, wanted.clock) - made.clock) < SAME;
  const hole = compared(`${cut}Hole centre`, made.fromSawn, wanted.fromSawn, write, "length");
  const offset = (c: CutFigures): string =>
    Math.abs(c.offset) < NO_OFFSET
      ? "none"
      : `${write.fine(Math.abs(c.offset))}, toward the side 90° ${c.offset > 0 ? "counter-clockwise" : "clockwise"} of the heel`;
  return [
    compared(`${cut}Hole saw, outside Ø`, made.diameter, wanted.diameter, write, "size"),
    compared(`${cut}Notch angle, off square`, made.angle, wanted.angle, write, "angle"),
    worded(`${cut}Clock of the heel`, clock(made), isClock ? clock(made) : clock(wanted)),
    {
      what: hole.what,
      made: fromSawn(made.fromSawn, end, write),
      ...(hole.wanted === undefined ? {} : { wanted: fromSawn(wanted.fromSawn, end, write) }),
    },
    worded(
      `${cut}Side offset`,
      offset(made),
      Math.abs(made.offset - wanted.offset) < SAME ? offset(made) : offset(wanted),
    ),
  ];
}

function flatLines(made: NotchFigures, wanted: NotchFigures, write: ShopWriter): readonly RecordLine[] {
  if (made.tilt === undefined) return [];
  const tilt = (f: NotchFigures): string =>
    f.long === undefined ? "square" : `${write.angle(f.tilt ?? 0)} off square`;
  const long = (f: NotchFigures): string =>
    f.long === undefined ? "none" : sayClockFrom(rad(f.long), write);
  const isTilt = Math.abs(made.tilt - (wanted.tilt ?? made.tilt)) < SAME;
  return [
    worded("Flat cut", tilt(made), isTilt ? tilt(made) : tilt(wanted)),
    ...(made.long === undefined
      ? []
      : [
          worded(
            "Clock of the long point",
            long(made),
            isTilt &&
              wanted.long !== undefined &&
              Math.abs(near(made.long, wanted.long) - made.long) < 10 * SAME
              ? long(made)
              : long(wanted),
          ),
        ]),
  ];
}

/**
 * What becomes of a made bar that is not what is wanted now. `tube`: the allowance that its ends have (mm), where what is
 * still to be done is figured from them; what is too long is then cut off with the notches.
 */
export function sayChanged(
  verdict: MadeVerdict,
  tube: Readonly<Record<End, number>> | undefined,
  write: Pick<ShopWriter, "length" | "angle" | "fine" | "finer">,
): string {
  if (!tube) return sayMade(verdict, write);
  const isMore = verdict.verdict === "ease" || verdict.verdict === "notch again";
  return [
    ...(isMore ? [sayMade(verdict, write)] : []),
    "Leave the sawn ends as they are: all figures count from them.",
    `Allowance now: ${write.length(tube.A)} at end A, ${write.length(tube.B)} at end B.`,
  ].join(" ");
}
