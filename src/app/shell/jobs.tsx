import { Download, FilePlus2, FolderOpen, Ruler, Trash2 } from "lucide-react";
import { useRef, useState } from "react";
import { AskText, classes, Decides, Dialog, parts } from "../kit/index.ts";
import type { JobDocument } from "../model/document/index.ts";
import { nameJob } from "../model/document/index.ts";
import { goToPage, useActions, useApp } from "../model/state/index.ts";
import { bytesOf, type JobEntry, saveFile } from "../model/storage/index.ts";
import styles from "./jobs.module.css";

/** A job with nothing in it. */
export const emptyJob = (name: string, length: "mm" | "in"): JobDocument => ({
  format: "tubewright job",
  version: 2,
  name,
  show: { length, fraction: 16 },
  tubes: {},
  bars: {},
});

const when = (ms: number): string =>
  new Date(ms).toLocaleString([], { dateStyle: "medium", timeStyle: "short" });

/** Where one begins: between two tubes, the jobs of this device, a new one, a file. */
export function Jobs() {
  const jobs = useApp((s) => s.jobs);
  const job = useApp((s) => s.job);
  const show = useApp((s) => s.show);
  const passing = useApp((s) => s.passing);
  const starting = useApp((s) => s.starting);
  const notListed = useApp((s) => s.notListed);
  const unprotected = useApp((s) => s.cautions.find((one) => one.key === "storage")?.text);
  const act = useActions();
  const file = useRef<HTMLInputElement>(null);
  const [asks, setAsks] = useState<"new" | "name" | JobEntry>();

  async function open(list: FileList | null): Promise<void> {
    const chosen = list?.[0];
    if (!chosen) return;
    await act.openFile(chosen.name, await bytesOf(chosen));
    goToPage("shop");
  }

  return (
    <div className={styles.jobs}>
      <section className={styles.start} aria-label="Start">
        <button type="button" className={styles.way} onClick={() => goToPage("between")}>
          <Ruler aria-hidden />
          <span>
            <strong>Between two tubes</strong>
            <small>
              Two tube sizes, a tape and an angle finder: length, both notches, wraps. No car needed.
            </small>
          </span>
        </button>
        <button type="button" className={styles.way} onClick={() => setAsks("new")}>
          <FilePlus2 aria-hidden />
          <span>
            <strong>New job</strong>
            <small>One cage or frame in one car.</small>
          </span>
        </button>
        <button type="button" className={styles.way} onClick={() => file.current?.click()}>
          <FolderOpen aria-hidden />
          <span>
            <strong>Open a job file</strong>
            <small>Or drag it onto this page.</small>
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
      </section>
      {job && (
        <section aria-label="Open job">
          <h2>Open now: {String(job.document.name ?? "Job without a name")}</h2>
          <div className={parts.row}>
            <button type="button" className={parts.main} onClick={() => goToPage("shop")}>
              Go to it
            </button>
            <button type="button" onClick={() => saveFile(job.document)}>
              <Download aria-hidden /> Save as a file
            </button>
            <button type="button" onClick={() => setAsks("name")}>
              Rename
            </button>
          </div>
        </section>
      )}
      <section aria-label={passing === undefined ? "Jobs on this device" : "Jobs in this page only"}>
        <h2>{passing === undefined ? "On this device" : "In this page only"}</h2>
        {unprotected !== undefined && (
          <p className={classes(parts.says, parts.wrong, styles.unprotected)}>{unprotected}</p>
        )}
        {jobs.length === 0 && notListed === undefined && (
          <p role="status">{starting ?? "No job is kept here yet."}</p>
        )}
        <ul className={styles.list}>
          {jobs.map((entry) => (
            <li key={entry.id}>
              <button
                type="button"
                className={styles.open}
                aria-current={entry.id === job?.entry.id ? "true" : undefined}
                onClick={() => void act.openJob(entry.id).then((isOpen) => isOpen && goToPage("shop"))}
              >
                <strong>{entry.name || "Job without a name"}</strong>
                <small>{entry.changed > 0 ? when(entry.changed) : "date not known"}</small>
              </button>
              <button
                type="button"
                className={parts.icon}
                aria-label={`Delete ${entry.name || "Job without a name"}`}
                onClick={() => setAsks(entry)}
              >
                <Trash2 aria-hidden />
              </button>
            </li>
          ))}
        </ul>
      </section>
      <Decides />
      {asks === "new" && (
        <AskText
          title="New job"
          label="What is it called?"
          as="name"
          value="Trial frame"
          done="Make it"
          onClose={() => setAsks(undefined)}
          onDone={(name) => {
            setAsks(undefined);
            void act.newJob(emptyJob(name, show.length)).then(() => goToPage("shop"));
          }}
        />
      )}
      {asks === "name" && job && (
        <AskText
          title="Rename the job"
          label="What is it called?"
          as="name"
          value={String(job.document.name ?? "")}
          done="Rename"
          onClose={() => setAsks(undefined)}
          onDone={(name) => {
            setAsks(undefined);
            act.run(nameJob(name));
          }}
        />
      )}
      {typeof asks === "object" && (
        <Dialog title={`Delete ${asks.name || "this job"}?`} onClose={() => setAsks(undefined)}>
          <p>It is taken off this device and cannot be brought back. Save it to a file first if in doubt.</p>
          <div className={parts.row}>
            <button
              type="button"
              className={parts.danger}
              onClick={() => {
                void act.deleteJob(asks.id);
                setAsks(undefined);
              }}
            >
              Delete it
            </button>
            <button type="button" onClick={() => setAsks(undefined)}>
              Keep it
            </button>
          </div>
        </Dialog>
      )}
    </div>
  );
}
