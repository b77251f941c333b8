import { sayProblem } from "../../words/index.ts";
import { classes, parts } from "../kit/index.ts";
import { idFrom } from "../model/document/index.ts";
import { goToPage, linesOf, useActions, useApp } from "../model/state/index.ts";
import { type Damaged, saveFile, saveText } from "../model/storage/index.ts";

/** What must be known at once, each in one clear line with what can be done about it. */
export function Notices() {
  const job = useApp((s) => s.job);
  const unreadable = useApp((s) => s.unreadable);
  const refusal = useApp((s) => s.refusal);
  const problems = useApp((s) => s.results.problems);
  const newVersion = useApp((s) => s.newVersion);
  const damaged = useApp((s) => s.damaged);
  const notListed = useApp((s) => s.notListed);
  const passing = useApp((s) => s.passing);
  const cautions = useApp((s) => s.cautions);
  const act = useActions();
  const lines = job ? linesOf(job.read) : [];
  const stopped = job?.read.ok ? problems.map(sayProblem) : [];
  return (
    <div>
      {job?.kept.state === "refused" && (
        <div className={classes(parts.notice, parts.wrong)} role="alert">
          <p>{job.kept.why}</p>
          <button type="button" onClick={() => saveFile(job.document)}>
            Save to a file
          </button>
        </div>
      )}
      {passing !== undefined && (
        <div className={classes(parts.notice, parts.wrong)} role="alert">
          <p>{passing}</p>
          {job && (
            <button type="button" onClick={() => saveFile(job.document)}>
              Save to a file
            </button>
          )}
          <TryAgain />
        </div>
      )}
      {notListed !== undefined && (
        <div className={classes(parts.notice, parts.wrong)} role="alert">
          <p>{notListed}</p>
          <TryAgain />
        </div>
      )}
      {damaged && <DamagedJob damaged={damaged} />}
      {cautions
        // that one is shown where the jobs are listed
        .filter(({ key }) => key !== "storage")
        .map(({ key, text }) => (
          <div key={key} className={classes(parts.notice, parts.wrong)} role="alert">
            <p>{text}</p>
            <button type="button" onClick={() => act.caution(key)}>
              OK
            </button>
          </div>
        ))}
      {unreadable && (
        <div className={classes(parts.notice, parts.wrong)} role="alert">
          <div>
            <p>
              <strong>{unreadable.name}</strong> is not opened; it needs{" "}
              {unreadable.lines.length === 1 ? "one thing" : `${unreadable.lines.length} things`} mended:
            </p>
            <ul>
              {unreadable.lines.slice(0, 12).map((line) => (
                <li key={line}>{line}</li>
              ))}
              {unreadable.lines.length > 12 && <li>and {unreadable.lines.length - 12} more</li>}
            </ul>
          </div>
          <button type="button" onClick={() => saveText(unreadable.name, unreadable.text)}>
            Save its text again
          </button>
          <button type="button" onClick={act.dismiss}>
            Put it away
          </button>
        </div>
      )}
      {refusal && (
        <div className={classes(parts.notice, parts.wrong)} role="alert">
          <p>
            Not done: {refusal.name}. {refusal.lines[0]}
            {refusal.lines.length > 1 && ` (and ${refusal.lines.length - 1} more)`}
          </p>
          <button type="button" onClick={act.dismiss}>
            All right
          </button>
        </div>
      )}
      {[...lines, ...stopped].slice(0, 5).map((line) => (
        <div key={line} className={classes(parts.notice, parts.wrong)} role="alert">
          <p>{line}</p>
        </div>
      ))}
      {newVersion && (
        <div className={parts.notice} role="status">
          <p>A newer version is on this device. Your job stays as it is.</p>
          <button type="button" onClick={() => void act.restart()}>
            Start it
          </button>
        </div>
      )}
    </div>
  );
}

const TryAgain = () => (
  <button type="button" onClick={() => location.reload()}>
    Try again
  </button>
);

/** A job whose record cannot be read whole, with all that can be done about it. */
function DamagedJob({ damaged }: { readonly damaged: Damaged }) {
  const act = useActions();
  const { entry, lines, document, raw } = damaged;
  const name = entry.name || "Job without a name";
  return (
    <div className={classes(parts.notice, parts.wrong)} role="alert">
      <div>
        <p>
          <strong>{name}</strong> is damaged on this device and is not opened. Its record stays as it is.
        </p>
        <ul>
          {lines.slice(0, 4).map((line) => (
            <li key={line}>{line}</li>
          ))}
          {lines.length > 4 && <li>and {lines.length - 4} more</li>}
        </ul>
      </div>
      {document && (
        <>
          <button type="button" onClick={() => void act.openRest().then(() => goToPage("shop"))}>
            Open what can be read
          </button>
          <button type="button" onClick={() => saveFile(document)}>
            Save what can be read
          </button>
        </>
      )}
      <button type="button" onClick={() => saveText(`${idFrom(name)}-record.json`, raw)}>
        Save the raw record
      </button>
      <button type="button" onClick={act.dismiss}>
        Close
      </button>
    </div>
  );
}
