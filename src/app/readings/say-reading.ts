import type { ShopErrors } from "../../core/job/index.ts";
import type { Advice } from "../../core/survey/index.ts";
import {
  asRead,
  HELD_ON,
  isAngle,
  isPlain,
  pointWords,
  READING_LIST,
  type ReadingKind,
  sayHeld,
  sayMark,
} from "../../words/index.ts";
import { retyped } from "../kit/index.ts";
import { calledOf, type JobDocument } from "../model/document/index.ts";
import { type Draft, type EndDraft, emptyDraft } from "./draft.ts";

export function endWords(end: EndDraft | undefined, document: JobDocument): string {
  if (!end) return HELD_ON.unknown;
  if (end.is === "point") return pointWords(end.id);
  const bar = calledOf(document, "bar", end.bar);
  if (end.is === "corner") return HELD_ON.corner(end.bend, bar);
  const { text, negative } = retyped(end.along, "mm");
  const size = typeof end.along === "number" ? `${text} mm` : text;
  return HELD_ON.along(bar, size, negative ? "B" : "A");
}

/** A reading in a person's words, without its size: "Tape, floor-1 to Main hoop, 400 mm from end A, far side". */
export function sayReading(draft: Draft, document: JobDocument): string {
  const [p, q] = draft.ends;
  const held = sayHeld(
    draft.kind,
    [endWords(p, document), endWords(q, document)],
    draft.ends.some((e) => e?.is === "tube") ? draft.over : undefined,
  );
  return draft.kind === "tape" ? `${held}${sayMark(draft.mark)}` : held;
}

/** The error of the shop's readings of a kind (mm, or degrees as the kind is); one standard deviation. */
export function shopError(kind: ReadingKind, errors: ShopErrors): number {
  if (isAngle(kind)) return errors.slope;
  if (kind === "tape" || kind === "level" || kind === "plumb") return errors[kind];
  return errors.height;
}

/** "± 2 mm": the error of one reading where it has its own; "" where it is the shop's. */
export const ownError = ({ kind, sd }: Draft): string =>
  sd === undefined ? "" : READING_LIST.ownError(isAngle(kind) ? `${String(sd)}°` : asRead(sd, "tape"));

/** The pad, ready for a reading that was advised. */
export function draftFrom(advice: Advice, like?: Pick<Draft, "over" | "mark">): Draft {
  const point = (id: string): EndDraft => ({ is: "point", id });
  if (advice.kind === "tape")
    return { ...emptyDraft("tape", like), ends: [point(advice.points[0]), point(advice.points[1])] };
  return { ...emptyDraft(advice.kind, like), ends: [point(advice.point), undefined] };
}

/** What keeping it is called in a list of commands. */
export const readName = (draft: Draft, document: JobDocument): string =>
  READING_LIST.command(
    `${sayReading(draft, document)}${isPlain(draft.kind) ? "" : `: ${asRead(draft.value, draft.kind)}`}`,
  );
