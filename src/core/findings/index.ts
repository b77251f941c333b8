export type { Code, Severity } from "./codes.ts";
export type { Finding, Name, Phrase, Quantity, Writer } from "./finding.ts";
export {
  bar,
  barsOf,
  byGravity,
  concerns,
  count,
  degrees,
  die,
  isDanger,
  isError,
  list,
  mm,
  phrase,
  place,
  plate,
  point,
  ratio,
  reading,
  SEVERITIES,
  severityOf,
  text,
  thing,
} from "./finding.ts";
export type { PhraseCode } from "./phrases.ts";
