import { FolderOpen, Moon, Redo2, Sun, Undo2 } from "lucide-react";
import { Suspense, useState } from "react";
import { TOP, UNITS, UNNAMED } from "../../words/index.ts";
import { Choose, classes, setTheme, useTheme } from "../kit/index.ts";
import { showUnits } from "../model/document/index.ts";
import { goToPage, type Page, STATIONS, useActions, useApp } from "../model/state/index.ts";
import { ShopKept } from "./of-shop.ts";
import styles from "./top.module.css";
import { UNIT_CHOICES, unitsOf } from "./units.ts";

/** What is open, whether it is kept, the undo and redo, units, and the stations. */
export function Top({ page, onHelp }: { readonly page: Page; readonly onHelp: () => void }) {
  const job = useApp((s) => s.job);
  const station = useApp((s) => s.station);
  const show = useApp((s) => s.show);
  const act = useActions();
  const shop = useApp((s) => s.shop !== undefined);
  const theme = useTheme();
  const [asksUnits, setUnits] = useState(false);
  const name =
    typeof job?.document.name === "string" && job.document.name !== "" ? job.document.name : UNNAMED;
  const kept = job?.kept;
  return (
    <header className={styles.top}>
      <div className={styles.job}>
        <button
          type="button"
          className={styles.jobs}
          aria-current={page === "jobs" ? "page" : undefined}
          aria-label={TOP.jobs}
          onClick={() => goToPage(page === "jobs" && job ? "shop" : "jobs")}
        >
          <FolderOpen aria-hidden />
          <span>{TOP.jobs}</span>
        </button>
        <div className={styles.name}>
          <h1>{page in TOP.page ? TOP.page[page as keyof typeof TOP.page] : job ? name : TOP.product}</h1>
          {job && page === "shop" && shop && (
            <Suspense fallback={null}>
              <ShopKept className={styles.kept} />
            </Suspense>
          )}
          {job && page === "shop" && !shop && (
            <p
              className={classes(
                styles.kept,
                (kept?.state === "refused" || kept?.state === "memory") && styles.wrong,
              )}
              role="status"
            >
              {kept && TOP.kept[kept.state]}
            </p>
          )}
        </div>
      </div>
      {page === "shop" && (
        <nav className={styles.stations} aria-label={TOP.stations}>
          {STATIONS.map((s) => (
            <button
              key={s}
              type="button"
              aria-current={s === station ? "page" : undefined}
              onClick={() => act.goTo(s)}
            >
              {TOP.station[s]}
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
              aria-label={TOP.undo(job?.undo)}
              onClick={() => act.undo()}
            >
              <Undo2 aria-hidden />
            </button>
            <button
              type="button"
              className={styles.icon}
              disabled={job?.redo === undefined}
              aria-label={TOP.redo(job?.redo)}
              onClick={() => act.redo()}
            >
              <Redo2 aria-hidden />
            </button>
            <button
              type="button"
              className={classes(styles.icon, styles.units)}
              aria-label={UNITS.now(unitsOf(show).says, show.length)}
              onClick={() => setUnits(true)}
            >
              {show.length}
            </button>
          </>
        )}
        <button
          type="button"
          className={classes(styles.icon, styles.theme)}
          aria-label={theme === "light" ? TOP.dark : TOP.light}
          onClick={() => setTheme(theme === "light" ? "dark" : "light")}
        >
          {theme === "light" ? <Moon aria-hidden /> : <Sun aria-hidden />}
        </button>
        <button
          type="button"
          className={classes(styles.icon, styles.units)}
          aria-label={TOP.help}
          data-help
          onClick={onHelp}
        >
          ?
        </button>
      </div>
      {asksUnits && (
        <Choose
          title={UNITS.title}
          value={unitsOf(show).id}
          options={UNIT_CHOICES.map(({ id, says }) => [id, says])}
          onClose={() => setUnits(false)}
          onPick={(id) => {
            setUnits(false);
            const to = UNIT_CHOICES.find((choice) => choice.id === id);
            if (to) act.run(showUnits(to.show.length, to.show.fraction, UNITS.set(to.says)));
          }}
        />
      )}
    </header>
  );
}
