import { type KeyboardEvent, memo, useEffect, useRef } from "react";
import { RAIL } from "../../../words/index.ts";
import { classes } from "../../kit/index.ts";
import { useActions, useApp, useAppItself } from "../../model/state/index.ts";
import type { Group } from "./arrange.ts";
import styles from "./rail.module.css";
import { railOf, useRail } from "./rail-state.ts";
import { Row } from "./row.tsx";

/** By keys the rail is one stop; the arrows walk along it, and Home and End go to its ends. */
function walk(event: KeyboardEvent<HTMLElement>, isRow: boolean): void {
  if (event.altKey || event.ctrlKey || event.metaKey || event.shiftKey) return;
  const bars = [...event.currentTarget.querySelectorAll<HTMLElement>("button[data-bar]")];
  const at = bars.findIndex((bar) => bar.closest("li")?.contains(event.target as Node));
  const to = {
    [isRow ? "ArrowRight" : "ArrowDown"]: at + 1,
    [isRow ? "ArrowLeft" : "ArrowUp"]: at - 1,
    Home: 0,
    End: bars.length - 1,
  }[event.key];
  if (to === undefined) return;
  bars[to]?.focus();
  event.preventDefault();
  // the same arrows take the next step at a machine
  event.stopPropagation();
}

/** The bars under their headings, in a column or a row. */
export const List = memo(function List(props: {
  readonly groups: readonly Group[];
  readonly isRow?: boolean;
}) {
  const { groups, isRow = false } = props;
  const inHand = useApp((s) => s.inHand);
  const marked = useApp((s) => s.marked);
  const isMarking = useRail((rail) => rail.isMarking);
  const find = useRail((rail) => rail.find);
  const list = useRef<HTMLElement>(null);
  const app = useAppItself();
  const act = useActions();
  // biome-ignore lint/correctness/useExhaustiveDependencies: brought into sight whenever another bar is in hand
  useEffect(() => {
    // Browsers answer a scroll with a promise, and an effect may return a clean-up or nothing.
    list.current
      ?.querySelector("[aria-pressed=true]")
      ?.scrollIntoView({ block: "nearest", inline: "nearest" });
  }, [inHand]);
  const ids = groups.flatMap((group) => group.rows.map((row) => row.id));
  const stop = inHand !== null && ids.includes(inHand) ? inHand : ids[0];
  return (
    <nav
      ref={list}
      className={classes(styles.list, isRow && styles.row)}
      aria-label={RAIL.bars}
      onKeyDown={(event) => walk(event, isRow)}
    >
      {groups.map(({ title, rows }) => (
        <div key={title ?? ""} className={styles.group}>
          {title !== undefined && (
            <h3>
              {title} <small>{rows.length}</small>
            </h3>
          )}
          <ul>
            {rows.map((row) => (
              <Row
                key={row.id}
                row={row}
                isInHand={row.id === inHand}
                isStop={row.id === stop}
                isMarked={isMarking && !isRow ? marked.includes(row.id) : undefined}
              />
            ))}
          </ul>
        </div>
      ))}
      {ids.length === 0 && (
        <p className={styles.none}>
          {find === "" ? (
            <button
              type="button"
              onClick={() => {
                railOf(app).setState({ sheet: "no" });
                act.goTo("wall");
              }}
            >
              {RAIL.none}
            </button>
          ) : (
            RAIL.nothing
          )}
        </p>
      )}
    </nav>
  );
});
