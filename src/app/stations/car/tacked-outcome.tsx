import { TACKED } from "../../../words/index.ts";
import { classes, parts } from "../../kit/index.ts";
import { at, calledOf, forgetAsBuilt, type JobDocument, keepAsBuilt } from "../../model/document/index.ts";
import { useActions, useApp } from "../../model/state/index.ts";
import { Kept, keptAs, Outcome, Verdict } from "../../readings/index.ts";
import type { TackedState } from "./use-tacked.ts";

/** Where the tacked bar is against the plan, and what to do with that. */
export function TackedOutcome(props: {
  readonly id: string;
  readonly document: JobDocument;
  readonly tacked: TackedState;
}) {
  const { id, document, tacked } = props;
  const { answer, found, off } = tacked;
  const act = useActions();
  const results = useApp((s) => s.results);
  const label = calledOf(document, "bar", id);
  const progress = at(document, ["bars", id, "progress"]);
  const isTacked = progress === "tacked" || progress === "welded";
  const isKept = found !== undefined && keptAs(document, id, found.path);

  function use(): void {
    if (!found) return;
    const why = TACKED.because(label, off);
    const stale = [...found.after.stale, ...found.after.cut].map((c) => {
      const blank = results.bars.get(c.id)?.bend.blank;
      return { bar: c.id, why, ...(blank === undefined ? {} : { blank }) };
    });
    act.run(keepAsBuilt(found.paths, stale, TACKED.commandUse(label)));
  }

  return (
    <Outcome label={TACKED.outcome} isFresh={tacked.isFresh}>
      {answer?.judged === "none" && <p className={classes(parts.notice, parts.wrong)}>{TACKED.none}</p>}
      {found && <Verdict>{TACKED.verdict(label, off)}</Verdict>}
      <div className={parts.row}>
        {found && !isKept && (
          <button type="button" className={parts.main} onClick={use}>
            {TACKED.use}
          </button>
        )}
        {isKept && <Kept>{TACKED.kept}</Kept>}
        {answer?.kept && (
          <button type="button" onClick={() => act.run(forgetAsBuilt(id, TACKED.commandUndo(label)))}>
            {TACKED.undo}
          </button>
        )}
        {!isTacked && (
          <button type="button" onClick={() => act.markStep(id, "tacked")}>
            {TACKED.mark}
          </button>
        )}
      </div>
    </Outcome>
  );
}
