import { barsOf, type Finding, isError } from "../../../core/findings/index.ts";
import { type End, hasReached, type Progress } from "../../../core/job/index.ts";
import { COME_TO, NOT_AS_WANTED, RAIL } from "../../../words/index.ts";
import type { DiffersReply, Results } from "../../model/compute/index.ts";
import { calledOf, comeTo, type JobDocument, thingsOf } from "../../model/document/index.ts";

/** A bar as the rail shows it. */
export interface BarRow {
  readonly id: string;
  readonly label: string;
  readonly progress: Progress;
  /** The one end that is notched before the other. */
  readonly notched: End | undefined;
  /** A bar without bends has no step at the bender; one without a place is taken to have some. */
  readonly isBent: boolean;
  /** How far it has come, or what needs doing to it. */
  readonly word: string;
  readonly isLook: boolean;
  readonly isDanger: boolean;
}

interface Known {
  readonly document: JobDocument;
  readonly results: Results;
  readonly dangers: readonly Finding[];
  readonly differs: DiffersReply | undefined;
}

/**
 * The rows of all bars, as in the job. A row that says what it said before is the same object, and where all do the
 * list is the same too: at a step of a drag only what reads otherwise is drawn again.
 */
export function rowsOf(known: Known, before: readonly BarRow[]): readonly BarRow[] {
  const had = new Map(before.map((row) => [row.id, row]));
  const without = new Set(known.results.without.map(({ id }) => id));
  const isOfAll = known.dangers.some(({ bar }) => bar === undefined);
  const endangered = new Set(known.dangers.flatMap((danger) => [...barsOf(danger)]));
  const rows = Object.keys(thingsOf(known.document, "bar")).map((id) => {
    const row = rowOf(id, { ...known, without: without.has(id), isDanger: isOfAll || endangered.has(id) });
    const old = had.get(id);
    return old && isSame(old, row) ? old : row;
  });
  return rows.length === before.length && rows.every((row, i) => row === before[i]) ? before : rows;
}

const isSame = (a: BarRow, b: BarRow): boolean =>
  (Object.keys(a) as (keyof BarRow)[]).every((key) => a[key] === b[key]);

interface Of extends Known {
  readonly without: boolean;
  readonly isDanger: boolean;
}

function rowOf(id: string, { document, results, differs, without, isDanger }: Of): BarRow {
  const { progress, notched } = comeTo(document, id);
  const result = results.bars.get(id);
  const hasError = result?.findings.some(isError) === true;
  const off = differs?.bars.find((v) => v.bar === id);
  const isElsewhere = differs?.fast.some((f) => f.bar === id) === true;
  const state = without
    ? RAIL.noPlace
    : off
      ? NOT_AS_WANTED.answer(progress, off.verdict)
      : isElsewhere
        ? NOT_AS_WANTED.elsewhere(progress)
        : hasError
          ? RAIL.check(progress)
          : COME_TO.step(progress, notched);
  return {
    id,
    label: calledOf(document, "bar", id),
    progress,
    notched,
    isBent: result?.bend.bends.length !== 0,
    word: isDanger ? RAIL.danger(state) : state,
    isLook: without || isDanger || hasError || off !== undefined || isElsewhere,
    isDanger,
  };
}

/** "36 bars · 12 sawn · 4 tacked · 3 to look at" */
export function countsOf(rows: readonly BarRow[]): string {
  const come = (to: Progress): number => rows.filter(({ progress }) => hasReached(progress, to)).length;
  return RAIL.counts(rows.length, come("sawn"), come("tacked"), rows.filter((row) => row.isLook).length);
}
