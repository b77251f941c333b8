export type { Code } from "./catalogue.ts";
export type { Finding, Quantity, Severity, Writer } from "./finding.ts";
export {
  byGravity,
  concerns,
  count,
  degrees,
  isDanger,
  isError,
  mm,
  SEVERITIES,
  say,
  severityOf,
  text,
} from "./finding.ts";
