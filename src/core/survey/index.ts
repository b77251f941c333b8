export { isTaken } from "./advice.ts";
export { DOOR_GAP, type DoorGapPair, doorGapFindings, doorGapPairs, READ_TO } from "./door-gaps.ts";
export type { SurveyBar } from "./ends.ts";
export { expectedOf, pointsIn } from "./expected.ts";
export { surveyJson } from "./json.ts";
export type { SurveyJob } from "./model.ts";
export { advicePhrase, readingPhrase } from "./phrases.ts";
export { type PointRead, readsOf } from "./reads-of.ts";
export { surveyJob } from "./survey.ts";
export type {
  Adjusted,
  Advice,
  Ellipsoid,
  Mirrored,
  NextBest,
  ReadingResult,
  Source,
  Survey,
  SurveyPoint,
  Suspect,
  Undetermined,
} from "./types.ts";
