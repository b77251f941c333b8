import { useMemo } from "react";
import type { Reuse } from "../../core/plan/index.ts";
import { isEased, MAKE_AGAIN, REUSE, sayPiece, sayReuse } from "../../words/index.ts";
import { Decides, Dialog, parts, writeIn } from "../kit/index.ts";
import { calledOf } from "../model/document/index.ts";
import { useActions, useAnswer, useApp } from "../model/state/index.ts";

/** Asks before what was made of a bar is cleared, and shows what the bar could become instead. */
export function MakeAgain() {
  const again = useApp((s) => s.again);
  const document = useApp((s) => s.job?.document);
  const show = useApp((s) => s.show);
  const act = useActions();
  const write = useMemo(() => writeIn(show), [show]);
  const found = useAnswer("reuse", again === undefined ? undefined : { bar: again })?.answer;
  if (again === undefined || !document) return null;
  const says = ({ of, verdict }: Reuse): string =>
    of.kind === "piece" ? sayPiece(of.left, write) : sayReuse(verdict, write);
  const called = ({ of, reversed }: Reuse): string => {
    if (of.kind === "bar") return `${calledOf(document, "bar", of.id)}${reversed ? REUSE.reversed : ""}`;
    const at = of.id.lastIndexOf("#");
    return MAKE_AGAIN.piece(calledOf(document, "tube", of.id.slice(0, at)), of.id.slice(at + 1));
  };
  return (
    <Dialog
      title={MAKE_AGAIN.title(calledOf(document, "bar", again))}
      onClose={() => act.answerAgain(false)}
      wide
    >
      <p>{MAKE_AGAIN.what}</p>
      <section className={parts.moved} aria-label={MAKE_AGAIN.could} aria-live="polite">
        <h3>{MAKE_AGAIN.could}</h3>
        {found === undefined && <p className={parts.wait}>{MAKE_AGAIN.searching}</p>}
        {found?.length === 0 && <p>{REUSE.none}</p>}
        {found && found.length > 0 && (
          <ul>
            {found.map((one) => (
              <li key={`${one.of.kind} ${one.of.id} ${one.reversed}`}>
                <button type="button" disabled={one.of.kind === "piece"} onClick={() => act.take(one.of.id)}>
                  <span>{called(one)}</span>
                  <span className={parts.numbers}>{says(one)}</span>
                </button>
              </li>
            ))}
          </ul>
        )}
      </section>
      {found?.some(({ verdict }) => isEased(verdict)) && <Decides />}
      <div className={parts.column}>
        <button type="button" className={parts.danger} onClick={() => act.answerAgain(true)}>
          {MAKE_AGAIN.yes}
        </button>
        <button type="button" className={parts.main} onClick={() => act.answerAgain(false)}>
          {MAKE_AGAIN.cancel}
        </button>
      </div>
    </Dialog>
  );
}
