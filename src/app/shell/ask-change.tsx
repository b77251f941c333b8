import { useMemo } from "react";
import { ASK_CHANGE } from "../../words/index.ts";
import { Dialog, MadeList, parts, writeIn } from "../kit/index.ts";
import { calledOf } from "../model/document/index.ts";
import { useActions, useApp } from "../model/state/index.ts";

/** A change that touches what is made waits here for an answer. */
export function AskChange() {
  const asked = useApp((s) => s.asked);
  const document = useApp((s) => s.job?.document);
  const show = useApp((s) => s.show);
  const act = useActions();
  const write = useMemo(() => writeIn(show), [show]);
  if (!asked || !document) return null;
  const { name, stay, fast, loose } = asked;
  const called = (id: string): string => calledOf(document, "bar", id);
  const names = fast.map(called);
  const isFast = fast.length > 0;
  return (
    <Dialog title={ASK_CHANGE.title} onClose={() => act.answerChange("cancel")} wide>
      <p>{ASK_CHANGE.change(name)}</p>
      <section className={parts.moved} aria-label={isFast ? ASK_CHANGE.left(names) : ASK_CHANGE.list}>
        {isFast && <h3>{ASK_CHANGE.left(names)}</h3>}
        <MadeList change={stay} called={called} write={write} />
      </section>
      {isFast && (
        <section className={parts.moved} aria-label={ASK_CHANGE.cutLoose(names)}>
          <h3>{ASK_CHANGE.cutLoose(names)}</h3>
          {loose ? (
            <MadeList change={loose} called={called} write={write} />
          ) : (
            <p className={parts.wait}>{ASK_CHANGE.judging}</p>
          )}
        </section>
      )}
      <div className={parts.column}>
        <button type="button" className={parts.main} onClick={() => act.answerChange("stay")}>
          {isFast ? ASK_CHANGE.leave(names) : ASK_CHANGE.apply}
        </button>
        {isFast && (
          <button
            type="button"
            className={parts.danger}
            disabled={!loose}
            onClick={() => act.answerChange("loose")}
          >
            {ASK_CHANGE.loosen(names)}
          </button>
        )}
        <button type="button" onClick={() => act.answerChange("cancel")}>
          {ASK_CHANGE.cancel}
        </button>
      </div>
    </Dialog>
  );
}
