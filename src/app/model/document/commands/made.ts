import {
  backTo,
  type Edits,
  type End,
  type Made,
  type MadeTo,
  type Progress,
  thrownAway,
} from "../../../../core/job/index.ts";
import { at, type JobDocument, type Json, type JsonPath } from "../../../../shared/index.ts";
import { STEP } from "../../../../words/index.ts";
import { type Command, done } from "../command.ts";
import { calledOf } from "../names.ts";
import { setValues } from "./value.ts";

/** What bars were made to, by ID, that the job does not keep yet. */
export type Records = readonly (readonly [bar: string, to: NonNullable<Made["to"]>])[];

const asEdits = (edits: Edits) => edits as unknown as readonly (readonly [JsonPath, Json | undefined])[];
const labelled =
  (bar: string, name: (label: string) => string): ((document: JobDocument) => string) =>
  (document) =>
    name(calledOf(document, "bar", bar));

/** A step done: how far the bar has come, and what it was made to, in one edit. `end`: the notch of one end. */
export function markMade(
  bar: string,
  { progress, to }: { readonly progress: Progress; readonly to: MadeTo },
  end?: End,
): Command {
  return {
    name: labelled(bar, (label) => (end ? STEP.notchedEnd(label, end) : STEP.progress(label, progress))),
    edit: markAllMade([[bar, { progress, to }]], "").edit,
  };
}

/** A step done of several bars, in one edit. */
export const markAllMade = (
  bars: readonly (readonly [bar: string, marked: { readonly progress: Progress; readonly to: MadeTo }])[],
  name: string,
): Command =>
  setValues(
    bars.flatMap(([bar, { progress, to }]) => [
      [["bars", bar, "progress"], progress] as const,
      [["made", bar, "to"], to as unknown as Json] as const,
    ]),
    name,
  );

/** Back to an earlier step: what the later ones kept was never made. */
export const stepBack = (bar: string, to: Progress): Command => ({
  name: labelled(bar, (label) => STEP.progress(label, to)),
  edit: (document) => setValues(asEdits(backTo(document, bar, to)), "").edit(document),
});

/** Thrown away, to be made again: what was made and read of the bar goes into its past. */
export const throwAway = (bar: string): Command => ({
  name: labelled(bar, STEP.throwAway),
  edit: (document) => setValues(asEdits(thrownAway(document, bar)), "").edit(document),
});

/**
 * A command that first keeps what bars were made to, where nothing says so yet, and cuts bars loose, all in one step.
 * It has the command's own name.
 */
export function withMade(command: Command, records: Records, loose: readonly string[] = []): Command {
  if (records.length === 0 && loose.length === 0) return command;
  return {
    name: command.name,
    edit(document) {
      const kept = setValues(
        records.flatMap(([bar, to]) =>
          at(document, ["bars", bar]) === undefined
            ? []
            : [[["made", bar, "to"], to as unknown as Json] as const],
        ),
        "",
      ).edit(document);
      if (!kept.ok) return kept;
      const edited = command.edit(kept.document);
      if (!edited.ok) return edited;
      // an edit that changes nothing is not a reason to write anything
      if (edited.document === kept.document && loose.length === 0) return done(document);
      return setValues(
        loose.flatMap((bar) => asEdits(backTo(edited.document, bar, "notched"))),
        "",
      ).edit(edited.document);
    },
  };
}
