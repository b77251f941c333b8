import { TACKED } from "../../../words/index.ts";
import { classes, parts } from "../../kit/index.ts";
import { at, calledOf, forgetAsBuilt, type JobDocument, keepAsBuilt } from "../../model/document/index.ts";
import { useActions } from "../../model/state/index.ts";
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
  const label = calledOf(document, "bar", id);
  const progress = at(document, ["bars", id, "progress"]);
  const isTacked = progress === "tacked" || progress === "welded";
  const isKept = found !== undefined && keptAs(document, id, found.path);

  function use(): void {
    if (!found) return;
    act.run(keepAsBuilt(found.paths, TACKED.commandUse(label)));
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
