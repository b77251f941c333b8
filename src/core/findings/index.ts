export type { Code } from "./catalogue.ts";
export { CATALOGUE } from "./catalogue.ts";
export type { Finding, Quantity, Severity, Writer } from "./finding.ts";
export { count, degrees, isError, mm, say, severityOf, text } from "./finding.ts";
