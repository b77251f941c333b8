import { type KeyboardEvent, useEffect, useRef } from "react";
import { concerns, isError } from "../../core/findings/index.ts";
import { COME_TO, NOT_AS_WANTED, RAIL } from "../../words/index.ts";
import { classes, Line } from "../kit/index.ts";
import { calledOf, comeTo, entries, thingsOf } from "../model/document/index.ts";
import { useActions, useApp, useDangers, useDiffers } from "../model/state/index.ts";
import styles from "./rail.module.css";

/** By keys the rail is one stop; up and down walk along it. */
function walk(event: KeyboardEvent<HTMLElement>): void {
  const by = { ArrowDown: 1, ArrowUp: -1 }[event.key];
  if (by === undefined || event.altKey || event.ctrlKey || event.metaKey) return;
  const bars = [...event.currentTarget.querySelectorAll("button")];
  bars[bars.indexOf(event.target as HTMLButtonElement) + by]?.focus();
  event.preventDefault();
}

/** Every bar and how far it has come; a tap takes it in hand. */
export function Rail() {
  const document = useApp((s) => s.job?.document);
  const results = useApp((s) => s.results);
  const inHand = useApp((s) => s.inHand);
  const act = useActions();
  const held = useRef<HTMLButtonElement>(null);
  const dangers = useDangers();
  const differs = useDiffers();
  // biome-ignore lint/correctness/useExhaustiveDependencies: brought into sight whenever another bar is in hand
  useEffect(() => {
    // Browsers answer a scroll with a promise, and an effect may return a clean-up or nothing.
    held.current?.scrollIntoView({ block: "nearest", inline: "nearest" });
  }, [inHand]);
  if (!document) return null;
  const bars = entries(thingsOf(document, "bar"));
  return (
    <nav className={styles.rail} aria-label={RAIL.bars} onKeyDown={walk}>
      <ul>
        {bars.map(([id], i) => {
          const { progress, notched } = comeTo(document, id);
          const without = results.without.some((w) => w.id === id);
          const danger = dangers.some((f) => concerns(f, id));
          const error = results.bars.get(id)?.findings.some(isError);
          const off = differs?.bars.find((v) => v.bar === id);
          const isElsewhere = differs?.fast.some((f) => f.bar === id);
          const state = without
            ? RAIL.noPlace
            : off
              ? NOT_AS_WANTED.answer(progress, off.verdict)
              : isElsewhere
                ? NOT_AS_WANTED.elsewhere(progress)
                : error
                  ? RAIL.check(progress)
                  : COME_TO.step(progress, notched);
          const word = danger ? RAIL.danger(state) : state;
          const look = without || danger || error || off || isElsewhere;
          return (
            <li key={id}>
              <button
                type="button"
                ref={id === inHand ? held : undefined}
                className={classes(styles.bar, look && styles.look, danger && styles.danger)}
                aria-pressed={id === inHand}
                tabIndex={(inHand === null ? i === 0 : id === inHand) ? 0 : -1}
                onClick={() => act.take(id === inHand ? null : id)}
              >
                <span className={styles.name}>{calledOf(document, "bar", id)}</span>
                <span className={styles.state}>
                  <Line progress={progress} />
                  {look && <span aria-hidden="true">⚠</span>} {word}
                </span>
              </button>
            </li>
          );
        })}
        {bars.length === 0 && (
          <li className={styles.none}>
            <button type="button" onClick={() => act.goTo("wall")}>
              {RAIL.none}
            </button>
          </li>
        )}
      </ul>
    </nav>
  );
}
