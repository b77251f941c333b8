import { CarFront, Download, FilePlus2, FolderOpen, Ruler, Spline, Trash2, Wrench } from "lucide-react";
import { lazy, Suspense, useRef, useState } from "react";
import { JOBS, STORED, UNNAMED } from "../../words/index.ts";
import { classes, Decides, parts } from "../kit/index.ts";
import { goToPage, useActions, useApp } from "../model/state/index.ts";
import { bytesOf, type JobEntry, saveFile } from "../model/storage/index.ts";
import { DEMOS, type Demo, demoText } from "./demos.ts";
import styles from "./jobs.module.css";
import { ShopJobs, ShopWhere } from "./of-shop.ts";

// Asked seldom: the first page does without.
const JobsAsk = lazy(async () => ({ default: (await import("./jobs-ask.tsx")).JobsAsk }));

const when = (ms: number): string =>
  new Date(ms).toLocaleString([], { dateStyle: "medium", timeStyle: "short" });

/** Where one begins: between two tubes, the jobs of this device, a new one, a file. */
export function Jobs() {
  const jobs = useApp((s) => s.jobs);
  const job = useApp((s) => s.job);
  const passing = useApp((s) => s.passing);
  const starting = useApp((s) => s.starting);
  const notListed = useApp((s) => s.notListed);
  const unprotected = useApp((s) => s.cautions.find((one) => one.key === "storage")?.text);
  const inShop = useApp((s) => s.shop !== undefined);
  const act = useActions();
  const file = useRef<HTMLInputElement>(null);
  const [asks, setAsks] = useState<"new" | "name" | JobEntry>();

  async function open(list: FileList | null): Promise<void> {
    const chosen = list?.[0];
    if (!chosen) return;
    await act.openFile(chosen.name, await bytesOf(chosen));
    goToPage("shop");
  }

  /** A copy of it that nobody changed the file of is opened as it was left. */
  async function openDemo(demo: Demo): Promise<void> {
    try {
      await act.openFile(demo, await demoText(demo), "again");
      goToPage("shop");
    } catch {
      act.caution("demo", STORED.noDemo);
    }
  }

  return (
    <div className={styles.jobs}>
      <section className={styles.start} aria-label={JOBS.start}>
        <button type="button" className={styles.way} onClick={() => goToPage("between")}>
          <Ruler aria-hidden />
          <span>
            <strong>{JOBS.between}</strong>
            <small>{JOBS.betweenMore}</small>
          </span>
        </button>
        <button type="button" className={styles.way} onClick={() => goToPage("die")}>
          <Spline aria-hidden />
          <span>
            <strong>{JOBS.die}</strong>
            <small>{JOBS.dieMore}</small>
          </span>
        </button>
        <button type="button" className={styles.way} onClick={() => setAsks("new")}>
          <FilePlus2 aria-hidden />
          <span>
            <strong>{JOBS.create}</strong>
            <small>{JOBS.createMore}</small>
          </span>
        </button>
        <button type="button" className={styles.way} onClick={() => file.current?.click()}>
          <FolderOpen aria-hidden />
          <span>
            <strong>{JOBS.openFile}</strong>
            <small>{JOBS.openFileMore}</small>
          </span>
        </button>
        <input
          ref={file}
          type="file"
          accept=".json,application/json"
          hidden
          onChange={(event) => {
            void open(event.target.files);
            event.target.value = "";
          }}
        />
        <button type="button" className={styles.way} onClick={() => goToPage("my-shop")}>
          <Wrench aria-hidden />
          <span>
            <strong>{JOBS.myShop}</strong>
            <small>{JOBS.myShopMore}</small>
          </span>
        </button>
        <div className={styles.demos} role="group" aria-label={JOBS.demos}>
          {DEMOS.map((demo) => (
            <button key={demo} type="button" className={styles.way} onClick={() => void openDemo(demo)}>
              <CarFront aria-hidden />
              <span>
                <strong>{JOBS.demo[demo].name}</strong>
                <small>{JOBS.demo[demo].more}</small>
              </span>
            </button>
          ))}
        </div>
      </section>
      {job && (
        <section aria-label={JOBS.openRegion}>
          <h2>{JOBS.openNow(String(job.document.name ?? UNNAMED))}</h2>
          <div className={parts.row}>
            <button type="button" className={parts.main} onClick={() => goToPage("shop")}>
              {JOBS.goTo}
            </button>
            <button type="button" onClick={() => saveFile(job.document)}>
              <Download aria-hidden /> {JOBS.save}
            </button>
            <button type="button" onClick={() => setAsks("name")}>
              {JOBS.rename}
            </button>
          </div>
        </section>
      )}
      <section aria-label={passing === undefined ? JOBS.onDeviceRegion : JOBS.inPageRegion}>
        <h2>{passing === undefined ? JOBS.onDevice : JOBS.inPage}</h2>
        {unprotected !== undefined && (
          <p className={classes(parts.says, parts.wrong, styles.unprotected)}>{unprotected}</p>
        )}
        {jobs.length === 0 && notListed === undefined && <p role="status">{starting ?? JOBS.none}</p>}
        <ul className={styles.list}>
          {jobs.map((entry) => (
            <li key={entry.id}>
              <button
                type="button"
                className={styles.open}
                aria-current={entry.id === job?.entry.id ? "true" : undefined}
                onClick={() => void act.openJob(entry.id).then((isOpen) => isOpen && goToPage("shop"))}
              >
                <strong>{entry.name || UNNAMED}</strong>
                <small>
                  {entry.changed > 0 ? when(entry.changed) : JOBS.noDate}
                  <Suspense fallback={null}>
                    {inShop && (
                      <>
                        {" · "}
                        <ShopWhere id={entry.id} />
                      </>
                    )}
                  </Suspense>
                </small>
              </button>
              <button
                type="button"
                className={parts.icon}
                aria-label={JOBS.remove(entry.name || UNNAMED)}
                onClick={() => setAsks(entry)}
              >
                <Trash2 aria-hidden />
              </button>
            </li>
          ))}
        </ul>
      </section>
      <Suspense fallback={null}>{inShop && <ShopJobs />}</Suspense>
      <Decides />
      <Suspense fallback={null}>
        {asks !== undefined && <JobsAsk asks={asks} onClose={() => setAsks(undefined)} />}
      </Suspense>
    </div>
  );
}
