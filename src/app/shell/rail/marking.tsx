import { useState } from "react";
import { PROGRESS } from "../../../core/job/index.ts";
import { capital, RAIL, RAIL_MARKING as SAYS } from "../../../words/index.ts";
import { Choose } from "../../kit/index.ts";
import { goToPage, useActions, useApp, useAppItself } from "../../model/state/index.ts";
import type { Group } from "./arrange.ts";
import { markDone, type WholeStep } from "./mark-done.ts";
import styles from "./more.module.css";
import { railOf } from "./rail-state.ts";
import type { BarRow } from "./rows.ts";

const STEPS = PROGRESS.filter((step): step is WholeStep => step !== "laid out");

/** What is done with the bars that are marked. */
export function Marking(props: {
  readonly rows: readonly BarRow[];
  readonly groups: readonly Group[];
  /** Whether the bars shown are those that a search found. */
  readonly isFound: boolean;
}) {
  const app = useAppItself();
  const act = useActions();
  const marked = useApp((s) => s.marked);
  const [asks, setAsks] = useState(false);
  const [left, setLeft] = useState<string>();
  const shown = props.groups.flatMap((group) => group.rows.map((row) => row.id));
  const isNone = marked.length === 0;
  return (
    <section className={styles.marking} aria-label={SAYS.region}>
      <p role="status">
        <strong>{RAIL.marked(marked.length, props.rows.length)}</strong>
      </p>
      <div className={styles.actions}>
        <button type="button" onClick={() => act.mark(shown, true)}>
          {props.isFound ? SAYS.found : SAYS.all}
        </button>
        <button type="button" disabled={isNone} onClick={() => act.mark(marked, false)}>
          {SAYS.none}
        </button>
        <button
          type="button"
          disabled={isNone}
          onClick={() => {
            setLeft(undefined);
            setAsks(true);
          }}
        >
          {SAYS.done}
        </button>
        <button
          type="button"
          disabled={isNone}
          onClick={() => {
            railOf(app).setState({ sheet: "no" });
            goToPage("print");
          }}
        >
          {SAYS.print}
        </button>
      </div>
      {left !== undefined && (
        <p className={styles.left} role="status">
          {left}
        </p>
      )}
      {asks && (
        <Choose
          title={SAYS.doneTitle(marked.length)}
          options={STEPS.map((step) => [step, capital(step)])}
          onClose={() => setAsks(false)}
          onPick={(id) => {
            setAsks(false);
            const step = STEPS.find((one) => one === id);
            if (step) void markDone(app, marked, step).then(setLeft);
          }}
        />
      )}
    </section>
  );
}
