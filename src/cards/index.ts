export { CAUTIONS, type Station } from "./cautions.ts";
export type { CardFile, CardOptions } from "./files.ts";
export { benderCard, cardFiles, markStrip, notcherCard, overview, wrapCard } from "./files.ts";
export { type Hand, handOf, twinOf } from "./hand.ts";
export { figuredFrom } from "./readings.ts";
export { revisionOf } from "./revision.ts";
export { type Subject, sawnLength, subjectOf } from "./subject.ts";
export { wrapDrawing } from "./wrap.ts";
export { type CutKind, girth, PAPER_THICKNESS, wrapKinds } from "./wrap-curve.ts";
