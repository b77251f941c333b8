import { useMemo } from "react";
import { OLD_CARD } from "../../words/index.ts";
import { writeIn } from "../kit/index.ts";
import { at, calledOf, cardRenewed, type Json } from "../model/document/index.ts";
import { useActions, useApp } from "../model/state/index.ts";
import styles from "./stale-card.module.css";

/** The card that was given out for a bar no longer holds: where its figures are read, the old ones struck through. */
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
    <div className={styles.card} role="note" aria-label={OLD_CARD.label}>
      <p className={styles.why}>
        <span aria-hidden="true">⚠ </span>
        <s>{OLD_CARD.card}</s>
        {OLD_CARD.why(String(at(stale as Json, ["why"])))}
        {typeof was === "number" && blank !== undefined && (
          <>
            {" "}
            {OLD_CARD.netLength} <s>{write.length(was)}</s> {write.length(blank)}.
          </>
        )}{" "}
        {OLD_CARD.allNew}
      </p>
      <button
        type="button"
        onClick={() => act.run(cardRenewed(id, OLD_CARD.command(calledOf(document, "bar", id))))}
      >
        {OLD_CARD.discard}
      </button>
    </div>
  );
}
