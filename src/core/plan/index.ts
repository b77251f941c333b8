export type { Restated } from "./aftertack.ts";
export { restate } from "./aftertack.ts";
export type { AsMade, CutFigures, NotchFigures, Sides } from "./as-made.ts";
export { asMade, oldPaper } from "./as-made.ts";
export type { BentAnswer } from "./bent.ts";
export { bentReading, bentSlips, blankOf, judgeBent, tellingOf } from "./bent.ts";
export type { CardNow } from "./cards.ts";
export { cardOf, codeOf, fnv1a, issued } from "./cards.ts";
/** @public pages call it before the first edit of a job whose bars keep no record */
export { type Change, changeOf, recordsMissing } from "./change.ts";
export type { BarErrors, Watched } from "./errors.ts";
export { barErrors, budget, placeErrors } from "./errors.ts";
export type { Felt } from "./felt.ts";
export { figuredJoint } from "./felt.ts";
export { allFindings, dangersOf } from "./findings.ts";
export { fittingOf } from "./fitting.ts";
export type { Places } from "./places.ts";
export type { BarPlan, Plan } from "./plan.ts";
export { notchAt, planJob } from "./plan.ts";
export type { PlacedPoint } from "./points.ts";
export { placedPoints } from "./points.ts";
export type { Mark, Marked, NotchMethod } from "./record.ts";
/** @public pages call it where a step is marked done */
export { marked } from "./record.ts";
export { type Reuse, reuseOf } from "./reuse.ts";
export type { TackedAnswer } from "./tacked.ts";
export { asWanted, barsIn, judgeTacked, tackReading, tackSlips } from "./tacked.ts";
