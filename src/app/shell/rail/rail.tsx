import { ChevronLeft, ChevronRight, Search } from "lucide-react";
import { lazy, Suspense, useEffect, useRef } from "react";
import { RAIL } from "../../../words/index.ts";
import { useActions, useApp, useAppItself, useDangers, useDiffers } from "../../model/state/index.ts";
import { Head } from "./head.tsx";
import { listenToKeys } from "./keys.ts";
import { List } from "./list.tsx";
import styles from "./rail.module.css";
import { neighbour, railOf, useRail } from "./rail-state.ts";
import { Steps } from "./row.tsx";
import { type BarRow, countsOf, rowsOf } from "./rows.ts";
import { useGroups } from "./use-groups.ts";
import { useRoom } from "./use-room.ts";

// Asked for where there is no room for the list beside the page.
const Sheet = lazy(async () => ({ default: (await import("./sheet.tsx")).Sheet }));

const NONE: readonly BarRow[] = [];

/** Every bar and how far it has come; a tap takes it in hand. */
export function Rail() {
  const document = useApp((s) => s.job?.document);
  const results = useApp((s) => s.results);
  const dangers = useDangers();
  const differs = useDiffers();
  const before = useRef(NONE);
  const rows = document ? rowsOf({ document, results, dangers, differs }, before.current) : NONE;
  useEffect(() => {
    before.current = rows;
  }, [rows]);
  const app = useAppItself();
  const groups = useGroups(rows);
  useEffect(() => {
    const shown = groups.flatMap((group) => group.rows.map((row) => row.id));
    railOf(app).setState({ shown });
  }, [app, groups]);
  useEffect(() => listenToKeys(app), [app]);
  const room = useRoom();
  const sheet = useRail((rail) => rail.sheet);
  if (!document) return null;
  return (
    <section className={styles.rail} aria-label={RAIL.region}>
      {room === "desk" && <Head rows={rows} groups={groups} />}
      {room !== "desk" && <FindButton />}
      {room === "phone" ? <Pager rows={rows} /> : <List groups={groups} isRow={room === "tablet"} />}
      {room !== "desk" && sheet !== "no" && (
        <Suspense fallback={null}>
          <Sheet rows={rows} groups={groups} />
        </Suspense>
      )}
    </section>
  );
}

function FindButton() {
  const app = useAppItself();
  const marked = useApp((s) => s.marked.length);
  return (
    <button type="button" className={styles.open} onClick={() => railOf(app).setState({ sheet: "open" })}>
      <Search aria-hidden />
      <span>{RAIL.findIt}</span>
      {marked > 0 && <small>{RAIL.marks(marked)}</small>}
    </button>
  );
}

/** Where there is room for one bar: the one in hand, and the ways to those beside it. */
function Pager({ rows }: { readonly rows: readonly BarRow[] }) {
  const app = useAppItself();
  const act = useActions();
  const inHand = useApp((s) => s.inHand);
  const shown = useRail((rail) => rail.shown);
  const row = rows.find(({ id }) => id === inHand);
  const step = (by: 1 | -1, says: string, icon: React.ReactNode) => {
    const to = neighbour(app, by);
    return (
      <button type="button" aria-label={says} disabled={to === undefined} onClick={() => to && act.take(to)}>
        {icon}
      </button>
    );
  };
  return (
    <nav className={styles.pager} aria-label={RAIL.bars}>
      <div>
        {row ? (
          <>
            <strong>{row.label}</strong>
            <p>
              {RAIL.at(shown.indexOf(row.id) + 1, shown.length)} <Steps row={row} />
            </p>
            <p className={row.isLook ? styles.attention : undefined}>
              {row.isLook && <span aria-hidden="true">⚠</span>} {row.word}
            </p>
          </>
        ) : (
          <p>{countsOf(rows)}</p>
        )}
      </div>
      {step(-1, RAIL.previous, <ChevronLeft aria-hidden />)}
      {step(1, RAIL.next, <ChevronRight aria-hidden />)}
    </nav>
  );
}
