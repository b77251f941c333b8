import { useMemo } from "react";
import { writeIn } from "../kit/index.ts";
import { at, calledOf, cardRenewed, type Json } from "../model/document/index.ts";
import { useActions, useApp } from "../model/state/index.ts";
import styles from "./stale-card.module.css";

/** The card that was given out for a bar no longer holds: said where its figures are read, what it said struck through. */
export function StaleCard({ id }: { readonly id: string }) {
  const act = useActions();
  const document = useApp((s) => s.job?.document);
  const show = useApp((s) => s.show);
  const blank = useApp((s) => s.results.bars.get(id)?.bend.blank);
  const write = useMemo(() => writeIn(show), [show]);
  const stale = document && at(document, ["made", id, "stale"]);
  if (!document || stale === undefined) return null;
  const was = at(stale as Json, ["blank"]);
  return (
    <div className={styles.card} role="note" aria-label="The old card is struck">
      <p className={styles.why}>
        <span aria-hidden="true">⚠ </span>
        <s>Card printed before</s>: {String(at(stale as Json, ["why"]))}.
        {typeof was === "number" && blank !== undefined && (
          <>
            {" "}
            Blank <s>{write.length(was)}</s> {write.length(blank)}.
          </>
        )}{" "}
        All figures here are new.
      </p>
      <button
        type="button"
        onClick={() => act.run(cardRenewed(id, `${calledOf(document, "bar", id)}: old card thrown away`))}
      >
        The old card is thrown away
      </button>
    </div>
  );
}
