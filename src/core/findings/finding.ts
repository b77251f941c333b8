import { CATALOGUE, type Code } from "./catalogue.ts";

/** A value of a finding, with its unit. Text is made of it at the edge (`say`). */
export type Quantity =
  | { readonly mm: number }
  | { readonly deg: number }
  | { readonly count: number }
  | { readonly text: string };

/** danger: to a person, cannot be switched off. error: no answer. warning: an answer that needs a look. note: a fact. */
export type Severity = "danger" | "error" | "warning" | "note";

/** What is wrong or worth knowing, as data. */
export interface Finding {
  readonly code: Code;
  /** Where in the job, as a path that a person can follow: `bars.harness.path[0].on`. */
  readonly place: string;
  /** The bar it concerns, if one. */
  readonly bar?: string;
  /** What the catalogue's sentence names in braces. */
  readonly values: Readonly<Record<string, Quantity>>;
}

export const mm = (value: number): Quantity => ({ mm: value });
export const degrees = (value: number): Quantity => ({ deg: value });
export const count = (value: number): Quantity => ({ count: value });
export const text = (value: string): Quantity => ({ text: value });

export const severityOf = (finding: Finding): Severity => CATALOGUE[finding.code].severity;

/** Findings that leave a bar without an answer. */
export const isError = (finding: Finding): boolean => severityOf(finding) === "error";

/** Findings of what can hurt a person. */
export const isDanger = (finding: Finding): boolean => severityOf(finding) === "danger";

/**
 * Whether a finding is of this bar: its own, one that names it among its values, or one of no bar, which is of all.
 * Ends and sides are no bars, though one may be called A or left.
 */
export const concerns = (finding: Finding, bar: string): boolean =>
  finding.bar === undefined ||
  finding.bar === bar ||
  Object.entries(finding.values).some(
    ([name, value]) => "text" in value && value.text === bar && !/end$|^side$/i.test(name),
  );

/** Gravest first; those of one severity stay in their order. */
export const SEVERITIES: readonly Severity[] = ["danger", "error", "warning", "note"];
export const byGravity = (findings: readonly Finding[]): readonly Finding[] =>
  SEVERITIES.flatMap((severity) => findings.filter((f) => severityOf(f) === severity));

/** How lengths and angles are written for the reader at hand; the unit is part of the text. */
export interface Writer {
  readonly length: (mm: number) => string;
  readonly angle: (degrees: number) => string;
}

/** The finding as one sentence. */
export function say(finding: Finding, writer: Writer): string {
  return CATALOGUE[finding.code].says.replace(/\{(\w+)\}/g, (_, name: string) => {
    const value = finding.values[name];
    if (value === undefined) throw new Error(`finding ${finding.code} lacks its value "${name}"`);
    if ("mm" in value) return writer.length(value.mm);
    if ("deg" in value) return writer.angle(value.deg);
    if ("count" in value) return String(value.count);
    return value.text;
  });
}
