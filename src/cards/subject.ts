import type { Writer } from "../core/findings/index.ts";
import type { End } from "../core/job/index.ts";
import { type BarPlan, dangersOf, type Plan } from "../core/plan/index.ts";
import { sizeOf } from "../core/tube/index.ts";
import { formatLength, writerFor } from "../core/units/index.ts";
import { labelsIn, type Names } from "../words/index.ts";
import { type Hand, handOf, twinOf } from "./hand.ts";
import { revisionOf } from "./revision.ts";

/** One bar as its cards speak of it. */
export interface Subject {
  readonly plan: Plan;
  readonly id: string;
  readonly bar: BarPlan;
  readonly label: string;
  readonly hand: Hand;
  readonly twin?: string;
  readonly revision: string;
  /** Lengths and angles with their unit, as the job wants them shown. */
  readonly write: Writer;
  /** What people call the things of the job. */
  readonly names: Names;
  /** Small sizes (gaps, offsets, walls): hundredths of a millimetre, or thousandths of an inch. */
  readonly fine: (mm: number) => string;
  /** Diameters of tubes and saws: tenths of a millimetre, or thousandths of an inch. */
  readonly size: (mm: number) => string;
  /** "Ø 40.0 mm × 2.00 mm, cold drawn seamless steel" */
  readonly tube: string;
}

/** Undefined for a bar that has no geometry, or that the job does not know. */
export function subjectOf(plan: Plan, id: string): Subject | undefined {
  const bar = plan.byId.get(id);
  if (!bar) return undefined;
  const { show } = plan.job;
  const plain = writerFor(show);
  const write: Writer = { ...plain, length: (mm) => whole(plain.length(mm)) };
  const finer = (decimals: number) => (mm: number) =>
    whole(formatLength(mm, { unit: show.length, fraction: show.fraction, decimals, inchDecimals: 3 }));
  const fine = finer(2);
  const size = finer(1);
  const { material } = bar.bar.tube;
  const { od, wall } = sizeOf(bar.bar.tube);
  const twin = twinOf(plan, id);
  return {
    plan,
    id,
    bar,
    label: bar.bar.label,
    hand: handOf(plan, id),
    ...(twin === undefined ? {} : { twin }),
    revision: revisionOf(plan, bar),
    write,
    names: labelsIn(plan.job.bars),
    fine,
    size,
    tube: `Ø ${size(od)} × ${fine(wall)}${material ? `, ${material}` : ""}`,
  };
}

/** No line breaks inside "1 3/16 in". */
const whole = (length: string): string => length.replaceAll(" ", "\u00a0");

/** What the stick is sawn to: the blank with its trim at both ends (mm). */
export const sawnLength = (bar: BarPlan): number => bar.bend.blank + bar.bend.trim.A + bar.bend.trim.B;

/** Said in the title block of every sheet, so that no sheet of a print is without it. */
export const dangerField = (dangers: number, where: string): [string, string][] =>
  dangers === 0 ? [] : [["DANGER", `${dangers}, read ${where} first`]];

/** The fields of a template, which needs its room for the true size. */
export const shortFields = (s: Subject): (readonly [string, string])[] => [
  ...dangerField(dangersOf(s.plan, s.id).length, "the bender card"),
  ["Revision", `rev ${s.revision}`],
  ["Bar", s.id],
  ["Hand", s.twin === undefined ? s.hand : `${s.hand}, twin ${s.twin}`],
];

/** The fields that every card of a bar carries below its title, which names the bar in its title block. */
export const barFields = (s: Subject): (readonly [string, string])[] => [
  ...shortFields(s),
  ["Tube", s.tube],
  ["Job", s.plan.job.name],
];

/** One line that stands on every sheet of a long print. */
export const barLine = (s: Subject, end?: End): string =>
  `${s.label}${end ? ` · end ${end}` : ""} · ${s.hand} · rev ${s.revision}`;

/** What an end is made to: "main-hoop + harness-bar", "plate foot-a"; a mirrored bar stands on the plate's mirror image. */
export function sayOnto(s: Subject, end: End): string {
  const { cope } = s.bar.copes[end];
  if (cope.kind === "square") return "nothing, square";
  if (cope.kind === "on") return cope.onto.join(" + ");
  return `${s.bar.bar.mirrorOf === undefined ? "plate" : "the mirror image of plate"} ${cope.onto[0]}`;
}
