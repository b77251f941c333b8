import { NOTICES, sayProblem, UNNAMED } from "../../words/index.ts";
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
            {NOTICES.save}
          </button>
        </div>
      )}
      {passing !== undefined && (
        <div className={classes(parts.notice, parts.wrong)} role="alert">
          <p>{passing}</p>
          {job && (
            <button type="button" onClick={() => saveFile(job.document)}>
              {NOTICES.save}
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
              {NOTICES.ok}
            </button>
          </div>
        ))}
      {unreadable && (
        <div className={classes(parts.notice, parts.wrong)} role="alert">
          <div>
            <p>{NOTICES.unreadable(unreadable.name, unreadable.lines.length)}</p>
            <ul>
              {unreadable.lines.slice(0, 12).map((line) => (
                <li key={line}>{line}</li>
              ))}
              {unreadable.lines.length > 12 && <li>{NOTICES.more(unreadable.lines.length - 12)}</li>}
            </ul>
          </div>
          <button type="button" onClick={() => saveText(unreadable.name, unreadable.text)}>
            {NOTICES.saveText}
          </button>
          <button type="button" onClick={act.dismiss}>
            {NOTICES.close}
          </button>
        </div>
      )}
      {refusal && (
        <div className={classes(parts.notice, parts.wrong)} role="alert">
          <p>{NOTICES.refused(refusal.name, refusal.lines[0] ?? "", refusal.lines.length - 1)}</p>
          <button type="button" onClick={act.dismiss}>
            {NOTICES.close}
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
          <p>{NOTICES.newVersion}</p>
          <button type="button" onClick={() => void act.restart()}>
            {NOTICES.restart}
          </button>
        </div>
      )}
    </div>
  );
}

const TryAgain = () => (
  <button type="button" onClick={() => location.reload()}>
    {NOTICES.again}
  </button>
);

/** A job whose record cannot be read whole, with all that can be done about it. */
function DamagedJob({ damaged }: { readonly damaged: Damaged }) {
  const act = useActions();
  const { entry, lines, document, raw } = damaged;
  const name = entry.name || UNNAMED;
  return (
    <div className={classes(parts.notice, parts.wrong)} role="alert">
      <div>
        <p>{NOTICES.damaged(name)}</p>
        <ul>
          {lines.slice(0, 4).map((line) => (
            <li key={line}>{line}</li>
          ))}
          {lines.length > 4 && <li>{NOTICES.more(lines.length - 4)}</li>}
        </ul>
      </div>
      {document && (
        <>
          <button type="button" onClick={() => void act.openRest().then(() => goToPage("shop"))}>
            {NOTICES.openRest}
          </button>
          <button type="button" onClick={() => saveFile(document)}>
            {NOTICES.saveRest}
          </button>
        </>
      )}
      <button type="button" onClick={() => saveText(`${idFrom(name)}-record.json`, raw)}>
        {NOTICES.saveRaw}
      </button>
      <button type="button" onClick={act.dismiss}>
        {NOTICES.close}
      </button>
    </div>
  );
}
