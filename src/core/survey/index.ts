export type { SurveyBar } from "./ends.ts";
export { surveyJson } from "./json.ts";
export type { SurveyJob } from "./model.ts";
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
