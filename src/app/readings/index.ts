export { AskBent } from "./ask-bent.tsx";
export type { BentDraft } from "./bent-sizes.ts";
export {
  bentAsRead,
  bentDrafts,
  bentJson,
  draftOfJson,
  draftOfReading,
  lastRead,
  plannedSize,
} from "./bent-sizes.ts";
export { Changed } from "./changed.tsx";
export type { Draft } from "./draft.ts";
export { carReading, draftOf, emptyDraft, pointIds, TACK_KINDS, tackedReading, withPoint } from "./draft.ts";
export { asTyped, expectedOfDraft, tackSizeOf } from "./expected.ts";
export { HowRead } from "./how-read.tsx";
export { keptAs } from "./kept.ts";
export { barIds } from "./pick-end.tsx";
export { ReadingList } from "./reading-list.tsx";
export { heldAt, ReadingPad } from "./reading-pad.tsx";
export { draftFrom, readName, sayReading } from "./say-reading.ts";
export { Body, HeadNote, Kept, Outcome, Side, Station, Two, Verdict } from "./station.tsx";
export { keepTapeMark, tapeMark } from "./tape-mark.ts";
export { wholeIn } from "./whole.ts";
