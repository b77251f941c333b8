export {
  addBar,
  changeBar,
  deleteBar,
  duplicateBar,
  mirrorBar,
  setProgress,
} from "./bars.ts";
export { issueCards } from "./issue.ts";
export type { Stands, StandsAt } from "./leave.ts";
export { markAllMade, markMade, type Records, stepBack, throwAway, withMade } from "./made.ts";
export { moveBar } from "./move.ts";
export { addReading, forgetAsBuilt, keepAsBuilt, readAgain, strikeReading } from "./readings.ts";
export { addThing, deleteThing, renameThing } from "./things.ts";
export { confirmExample, nameJob, setValue, setValues, showUnits } from "./value.ts";
