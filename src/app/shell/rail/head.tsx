import { ChevronDown, X } from "lucide-react";
import { lazy, Suspense, useEffect, useRef, useState } from "react";
import { RAIL, SORTED } from "../../../words/index.ts";
import { useActions, useAppItself } from "../../model/state/index.ts";
import type { Group } from "./arrange.ts";
import { more } from "./later.ts";
import styles from "./rail.module.css";
import { railOf, setMarking, useRail } from "./rail-state.ts";
import { type BarRow, countsOf } from "./rows.ts";

const SortBy = lazy(async () => ({ default: (await more()).SortBy }));
const OrderNote = lazy(async () => ({ default: (await more()).OrderNote }));
const Marking = lazy(async () => ({ default: (await more()).Marking }));

interface Shown {
  readonly rows: readonly BarRow[];
  readonly groups: readonly Group[];
}

/** Over the bars: what is looked for, how they are sorted, how many there are, and what is done with several. */
export function Head({ rows, groups }: Shown) {
  const app = useAppItself();
  const sort = useRail((rail) => rail.sort);
  const find = useRail((rail) => rail.find);
  const isMarking = useRail((rail) => rail.isMarking);
  const [sorts, setSorts] = useState(false);
  const found = groups.reduce((sum, group) => sum + group.rows.length, 0);
  return (
    <header className={styles.head}>
      <Find groups={groups} />
      <button type="button" className={styles.sort} aria-haspopup="dialog" onClick={() => setSorts(true)}>
        <span>
          <small>{RAIL.sort}</small> {SORTED[sort]}
        </span>
        <ChevronDown aria-hidden />
      </button>
      {rows.length > 1 && (
        <button type="button" className={styles.several} onClick={() => setMarking(app, !isMarking)}>
          {isMarking ? RAIL.endMarking : RAIL.mark}
        </button>
      )}
      <p className={styles.counts} role="status">
        {find === "" ? countsOf(rows) : RAIL.found(found, rows.length)}
      </p>
      <Suspense fallback={null}>
        {sort === "order" && <OrderNote />}
        {isMarking && <Marking rows={rows} groups={groups} isFound={find !== ""} />}
        {sorts && <SortBy onClose={() => setSorts(false)} />}
      </Suspense>
    </header>
  );
}

/** Parts of words in any order; Enter takes the first that is found, Escape clears the field and leaves it. */
function Find({ groups }: Pick<Shown, "groups">) {
  const app = useAppItself();
  const act = useActions();
  const find = useRail((rail) => rail.find);
  const isTyping = useRail((rail) => rail.sheet === "typing");
  const isSheet = useRail((rail) => rail.sheet !== "no");
  const input = useRef<HTMLInputElement>(null);
  useEffect(() => {
    if (isTyping) input.current?.focus();
  }, [isTyping]);
  const setFind = (text: string): void => railOf(app).setState({ find: text });
  const first = groups[0]?.rows[0]?.id;
  return (
    <div className={styles.find}>
      <input
        ref={input}
        type="search"
        data-find
        autoComplete="off"
        aria-label={RAIL.find}
        placeholder={isSheet ? RAIL.find : RAIL.findHint}
        value={find}
        onChange={(event) => setFind(event.target.value)}
        onFocus={() => void more().catch(() => undefined)}
        onKeyDown={(event) => {
          if (event.key === "Enter" && find !== "" && first !== undefined) {
            act.take(first);
            setFind("");
            railOf(app).setState({ sheet: "no" });
            requestAnimationFrame(() => focusBar("[aria-pressed=true]"));
          } else if (event.key === "Escape" && find !== "") setFind("");
          else if (
            event.key === "ArrowDown" ||
            (event.key === "Escape" && !event.currentTarget.closest("dialog"))
          )
            focusBar("[tabindex='0']", event.currentTarget.closest("section") ?? undefined);
          else return;
          event.preventDefault();
          event.stopPropagation();
        }}
      />
      {find !== "" && (
        <button
          type="button"
          aria-label={RAIL.clear}
          onClick={() => {
            setFind("");
            input.current?.focus();
          }}
        >
          <X aria-hidden />
        </button>
      )}
    </div>
  );
}

const focusBar = (which: string, at: ParentNode = document): void =>
  at.querySelector<HTMLElement>(`button[data-bar]${which}`)?.focus();
