import { FolderOpen, Moon, Redo2, Sun, Undo2 } from "lucide-react";
import { classes, setTheme, useTheme } from "../kit/index.ts";
import { showUnits } from "../model/document/index.ts";
import { goToPage, type Page, STATIONS, useActions, useApp } from "../model/state/index.ts";
import styles from "./top.module.css";

const NAMES = {
  wall: "Wall",
  car: "Car",
  bender: "Bender",
  trestles: "Trestles",
  notcher: "Notcher",
} as const;

const KEPT = {
  kept: "kept on this device",
  keeping: "being kept…",
  memory: "NOT KEPT: IN THIS PAGE ONLY",
  refused: "NOT KEPT",
} as const;

/** What is open, whether it is kept, the steps back and forth, and the stations. */
export function Top({ page }: { readonly page: Page }) {
  const job = useApp((s) => s.job);
  const station = useApp((s) => s.station);
  const show = useApp((s) => s.show);
  const act = useActions();
  const theme = useTheme();
  const name =
    typeof job?.document.name === "string" && job.document.name !== ""
      ? job.document.name
      : "Job without a name";
  const kept = job?.kept;
  return (
    <header className={styles.top}>
      <div className={styles.job}>
        <button
          type="button"
          className={styles.jobs}
          aria-current={page === "jobs" ? "page" : undefined}
          aria-label="Jobs"
          onClick={() => goToPage(page === "jobs" && job ? "shop" : "jobs")}
        >
          <FolderOpen aria-hidden />
          <span>Jobs</span>
        </button>
        <div className={styles.name}>
          <h1>{page === "between" ? "Between two tubes" : job ? name : "Tubewright"}</h1>
          {job && page === "shop" && (
            <p
              className={classes(
                styles.kept,
                (kept?.state === "refused" || kept?.state === "memory") && styles.wrong,
              )}
              role="status"
            >
              {kept && KEPT[kept.state]}
            </p>
          )}
        </div>
      </div>
      {page === "shop" && (
        <nav className={styles.stations} aria-label="Stations">
          {STATIONS.map((s) => (
            <button
              key={s}
              type="button"
              aria-current={s === station ? "page" : undefined}
              onClick={() => act.goTo(s)}
            >
              {NAMES[s]}
            </button>
          ))}
        </nav>
      )}
      <div className={styles.tools}>
        {page === "shop" && (
          <>
            <button
              type="button"
              className={styles.icon}
              disabled={job?.undo === undefined}
              aria-label={job?.undo === undefined ? "Nothing to take back" : `Take back: ${job.undo}`}
              onClick={() => act.undo()}
            >
              <Undo2 aria-hidden />
            </button>
            <button
              type="button"
              className={styles.icon}
              disabled={job?.redo === undefined}
              aria-label={job?.redo === undefined ? "Nothing to do again" : `Do again: ${job.redo}`}
              onClick={() => act.redo()}
            >
              <Redo2 aria-hidden />
            </button>
            <button
              type="button"
              className={classes(styles.icon, styles.units)}
              aria-label={
                show.length === "mm" ? "Lengths in mm: show inches" : "Lengths in inches (in): show mm"
              }
              onClick={() => act.run(showUnits(show.length === "mm" ? "in" : "mm"))}
            >
              {show.length}
            </button>
          </>
        )}
        <button
          type="button"
          className={styles.icon}
          aria-label={theme === "light" ? "Show it dark" : "Show it light"}
          onClick={() => setTheme(theme === "light" ? "dark" : "light")}
        >
          {theme === "light" ? <Moon aria-hidden /> : <Sun aria-hidden />}
        </button>
      </div>
    </header>
  );
}
