import type { ShopErrors } from "../../core/job/index.ts";
import type { Advice } from "../../core/survey/index.ts";
import type { Slipped } from "../../core/trestles/index.ts";
import {
  asRead,
  isAngle,
  isPlain,
  type ReadingKind,
  sayHeld,
  saySlip as slipWords,
} from "../../words/index.ts";
import { calledOf, type JobDocument } from "../document/index.ts";
import { retyped } from "../stations/typed.ts";
import { type Draft, type EndDraft, emptyDraft } from "./draft.ts";

export function endWords(end: EndDraft | undefined, document: JobDocument): string {
  if (!end) return "…";
  if (end.is === "point") return end.id;
  const bar = calledOf(document, "bar", end.bar);
  if (end.is === "corner") return `the outer corner of bend ${end.bend} of ${bar}`;
  const { text, negative } = retyped(end.along, "mm");
  const size = typeof end.along === "number" ? `${text} mm` : text;
  return `${bar}, ${size} from end ${negative ? "B" : "A"}`;
}

/** A reading in a person's words, without its size: "Tape, floor-1 to Main hoop, 400 mm from end A, far side". */
export function sayReading(draft: Draft, document: JobDocument): string {
  const [p, q] = draft.ends.map((e) => endWords(e, document)) as [string, string];
  return sayHeld(draft.kind, [p, q], draft.ends.some((e) => e?.is === "tube") ? draft.over : undefined);
}

/** What the shop's reading of a kind is good to (mm, or degrees as the kind is); one standard deviation. */
export function shopError(kind: ReadingKind, errors: ShopErrors): number {
  if (isAngle(kind)) return errors.slope;
  if (kind === "tape" || kind === "level" || kind === "plumb") return errors[kind];
  return errors.height;
}

/** "± 2 mm": what one reading is good to where that is said of it alone; "" where it is the shop's. */
export const ownError = ({ kind, sd }: Draft): string =>
  sd === undefined ? "" : `± ${isAngle(kind) ? `${sd}°` : asRead(sd, "tape")}`;

/** The pad, ready for a reading that was advised. */
export function draftFrom(advice: Advice): Draft {
  const point = (id: string): EndDraft => ({ is: "point", id });
  if (advice.kind === "tape")
    return { ...emptyDraft("tape"), ends: [point(advice.points[0]), point(advice.points[1])] };
  return { ...emptyDraft(advice.kind), ends: [point(advice.point), undefined] };
}

/** Said of what is kept in a list of commands. */
export const readName = (draft: Draft, document: JobDocument): string =>
  `read ${sayReading(draft, document)}${isPlain(draft.kind) ? "" : `: ${asRead(draft.value, draft.kind)}`}`;

/** A reading that a slip of unit explains. */
export const saySlip = (slip: Slipped, length: (mm: number) => string): string =>
  `left out: about ${length(slip.expected)} is expected; was it ${slipWords(slip.slip)}?`;
