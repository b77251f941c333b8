import { type Code, SEVERITY, type Severity } from "./codes.ts";
import type { PhraseCode } from "./phrases.ts";

/** A thing of the job by its kind and ID; people read its label, files and the command line its ID. */
export type Name =
  | { readonly bar: string }
  | { readonly plate: string }
  | { readonly point: string }
  | { readonly die: string }
  /** A bar, a plate or a part of the body, whichever has that name. */
  | { readonly thing: string }
  /** By its index in the job's list, from 0. */
  | { readonly reading: number };

/** Part of a sentence, with values of its own: the words are made with those of the finding. */
export interface Phrase {
  readonly phrase: PhraseCode;
  readonly values?: Readonly<Record<string, Quantity>>;
}

/** A value of a finding, with its unit. Text is made of it at the edge, by `say` of words. */
export type Quantity =
  | { readonly mm: number }
  /** `figures`: to so many figures that count, where it may be a small fraction of a degree. */
  | { readonly deg: number; readonly figures?: number }
  | { readonly count: number }
  | { readonly ratio: number }
  /** In the car (mm). */
  | { readonly at: readonly [number, number, number] }
  /** A direction of the car, of any length. */
  | { readonly way: readonly [number, number, number] }
  /** A word of the job itself: an end, an axis, a side. */
  | { readonly text: string }
  | Name
  | Phrase
  /** `most`: so many are written, the others counted; `or`: one of them. */
  | { readonly list: readonly Quantity[]; readonly most?: number; readonly or?: true };

/** What is wrong or worth knowing, as data. */
export interface Finding {
  readonly code: Code;
  /** Where in the job, as a path that a person can follow: `bars.harness.path[0].on`. */
  readonly place: string;
  /** The bar it concerns, if one. */
  readonly bar?: string;
  /** What its sentence names in braces. */
  readonly values: Readonly<Record<string, Quantity>>;
}

export const mm = (value: number): Quantity => ({ mm: value });
export const degrees = (value: number, figures?: number): Quantity =>
  figures === undefined ? { deg: value } : { deg: value, figures };
export const count = (value: number): Quantity => ({ count: value });
export const ratio = (value: number): Quantity => ({ ratio: value });
export const text = (value: string): Quantity => ({ text: value });
export const place = (at: readonly [number, number, number]): Quantity => ({ at });
export const bar = (id: string): Quantity => ({ bar: id });
export const plate = (id: string): Quantity => ({ plate: id });
export const point = (id: string): Quantity => ({ point: id });
export const die = (id: string): Quantity => ({ die: id });
export const thing = (id: string): Quantity => ({ thing: id });
/** `index` in the job's readings, from 0. */
export const reading = (index: number): Quantity => ({ reading: index });
export const list = (items: readonly Quantity[], most?: number): Quantity =>
  most === undefined ? { list: items } : { list: items, most };
export const phrase = (code: PhraseCode, values?: Phrase["values"]): Phrase =>
  values === undefined ? { phrase: code } : { phrase: code, values };

export const severityOf = (finding: Finding): Severity => SEVERITY[finding.code];

/** Findings that leave a bar without an answer. */
export const isError = (finding: Finding): boolean => severityOf(finding) === "error";

/** Findings of what can hurt a person. */
export const isDanger = (finding: Finding): boolean => severityOf(finding) === "danger";

/** Whether a finding is of this bar: its own, one that names it among its values, or one of no bar, which is of all. */
export const concerns = (finding: Finding, id: string): boolean =>
  finding.bar === undefined || barsOf(finding).has(id);

/** The bars that a finding is of: its own and those among its values; none where it is of all. */
export function barsOf({ bar, values }: Finding): ReadonlySet<string> {
  const bars = new Set<string>();
  if (bar === undefined) return bars;
  bars.add(bar);
  for (const value of Object.values(values)) named(value, bars);
  return bars;
}

function named(value: Quantity, bars: Set<string>): void {
  if ("bar" in value) bars.add(value.bar);
  else if ("list" in value) for (const item of value.list) named(item, bars);
  else if ("phrase" in value) for (const item of Object.values(value.values ?? {})) named(item, bars);
}

/** Gravest first; those of one severity stay in their order. */
export const SEVERITIES: readonly Severity[] = ["danger", "error", "warning", "note"];
export const byGravity = (findings: readonly Finding[]): readonly Finding[] =>
  SEVERITIES.flatMap((severity) => findings.filter((f) => severityOf(f) === severity));

/** How lengths and angles are written for the reader at hand; the unit is part of the text. */
export interface Writer {
  readonly length: (mm: number) => string;
  readonly angle: (degrees: number) => string;
  /** The same to the thousandth, for two values that would read alike. */
  readonly finer?: Pick<Writer, "length" | "angle">;
}
