import { NOTICES, sayProblem, UNNAMED } from "../../words/index.ts";
import { Notice } from "../kit/index.ts";
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
  const [first, ...rest] = [...lines, ...(job?.read.ok ? problems.map(sayProblem) : [])];
  return (
    <div>
      {job?.kept.state === "refused" && (
        <Notice isWrong says={job.kept.why}>
          <button type="button" onClick={() => saveFile(job.document)}>
            {NOTICES.save}
          </button>
        </Notice>
      )}
      {passing !== undefined && (
        <Notice isWrong says={passing}>
          {job && (
            <button type="button" onClick={() => saveFile(job.document)}>
              {NOTICES.save}
            </button>
          )}
          <TryAgain />
        </Notice>
      )}
      {notListed !== undefined && (
        <Notice isWrong says={notListed}>
          <TryAgain />
        </Notice>
      )}
      {damaged && <DamagedJob damaged={damaged} />}
      {cautions
        // that one is shown where the jobs are listed
        .filter(({ key }) => key !== "storage")
        .map(({ key, text }) => (
          <Notice key={key} isWrong says={text}>
            <button type="button" onClick={() => act.caution(key)}>
              {NOTICES.ok}
            </button>
          </Notice>
        ))}
      {unreadable && (
        <Notice
          isWrong
          isOpen
          says={NOTICES.unreadable(unreadable.name, unreadable.lines.length)}
          more={<Lines lines={unreadable.lines} most={12} />}
        >
          <button type="button" onClick={() => saveText(unreadable.name, unreadable.text)}>
            {NOTICES.saveText}
          </button>
          <button type="button" onClick={act.dismiss}>
            {NOTICES.close}
          </button>
        </Notice>
      )}
      {refusal && (
        <Notice
          isWrong
          says={NOTICES.refused(refusal.name, refusal.lines[0] ?? "", refusal.lines.length - 1)}
        >
          <button type="button" onClick={act.dismiss}>
            {NOTICES.close}
          </button>
        </Notice>
      )}
      {first !== undefined && (
        <Notice
          isWrong
          says={rest.length > 0 ? NOTICES.first(first, rest.length) : first}
          more={rest.length > 0 && <Lines lines={rest} most={8} />}
        />
      )}
      {newVersion && (
        <Notice says={NOTICES.newVersion}>
          <button type="button" onClick={() => void act.restart()}>
            {NOTICES.restart}
          </button>
        </Notice>
      )}
    </div>
  );
}

const TryAgain = () => (
  <button type="button" onClick={() => location.reload()}>
    {NOTICES.again}
  </button>
);

/** As many lines as one reads, and how many more there are. */
const Lines = ({ lines, most }: { readonly lines: readonly string[]; readonly most: number }) => (
  <ul>
    {lines.slice(0, most).map((line) => (
      <li key={line}>{line}</li>
    ))}
    {lines.length > most && <li>{NOTICES.more(lines.length - most)}</li>}
  </ul>
);

/** A job whose record cannot be read whole, with all that can be done about it. */
function DamagedJob({ damaged }: { readonly damaged: Damaged }) {
  const act = useActions();
  const { entry, lines, document, raw } = damaged;
  const name = entry.name || UNNAMED;
  return (
    <Notice isWrong isOpen says={NOTICES.damaged(name)} more={<Lines lines={lines} most={4} />}>
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
    </Notice>
  );
}
