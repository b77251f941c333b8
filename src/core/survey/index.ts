export { DOOR_GAP, doorGapFindings, doorGapPairs } from "./door-gaps.ts";
export type { SurveyBar } from "./ends.ts";
export { surveyJson } from "./json.ts";
export { expectedOf, pointsIn } from "./expected.ts";
export type { SurveyJob } from "./model.ts";
export { type PointRead, readsOf } from "./reads-of.ts";
export { advicePhrase, readingPhrase } from "./phrases.ts";
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
