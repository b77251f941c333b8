import type { JobDocument } from "../../../shared/index.ts";
import type { Need } from "../../../words/index.ts";

/** A bar that stands, or hangs, on the thing that a command would take away. */
export interface Dependent {
  readonly bar: string;
  readonly how: Need;
  /** Merely coped to it besides what it lands on: it can lose that and stay. */
  readonly loose?: true;
}

/** Why a command was not done: lines for a person, the first one enough; nothing was changed. */
export interface Refusal {
  readonly ok: false;
  readonly lines: readonly string[];
  readonly dependents?: readonly Dependent[];
}

/** One change of the job: what it is called in the list of steps, and what it makes of the document. Pure. */
export interface Command {
  /** As a person says it: "move Main hoop 10 mm forward"; by the labels of the document before it. */
  readonly name: string | ((document: JobDocument) => string);
  readonly edit: (document: JobDocument) => { readonly ok: true; readonly document: JobDocument } | Refusal;
  /** How the job is shown and not what it is: written, but no step of undo and no change to tell of. */
  readonly isAside?: true;
}

export const nameOf = ({ name }: Command, document: JobDocument): string =>
  typeof name === "string" ? name : name(document);

export type Outcome = { readonly ok: true; readonly changed: boolean } | Refusal;

export const done = (document: JobDocument) => ({ ok: true as const, document });

export const refused = (line: string, dependents?: readonly Dependent[]): Refusal => ({
  ok: false,
  lines: [line],
  ...(dependents ? { dependents } : {}),
});
