import { useEffect, useMemo, useState } from "react";
import type { JobDocument } from "../../shared/index.ts";
import { HISTORY, TOP, UNNAMED } from "../../words/index.ts";
import { AskText, classes, Dialog, parts } from "../kit/index.ts";
import { calledOf, thingsOf } from "../model/document/index.ts";
import { type NamedState, type ShopChange, shopAsk } from "../model/shop/index.ts";
import { goToPage, useActions, useApp } from "../model/state/index.ts";
import { saveFile } from "../model/storage/index.ts";
import { hoursOf, stateAt } from "./hours.ts";
import { differences } from "./parts.ts";
import styles from "./shop.module.css";
import { whenOf } from "./when.ts";

const MOST = 12;

/** What became of a job, hour by hour and device by device; any of it can be looked at and brought back. */
export function HistoryPage() {
  const job = useApp((s) => s.job);
  const id = job?.entry.id;
  const name = typeof job?.document.name === "string" ? job.document.name : UNNAMED;
  const seq = useApp((s) => (s.shop?.job?.is === "kept" ? s.shop.job.at : 0));
  const [changes, setChanges] = useState<readonly ShopChange[]>();
  const [states, setStates] = useState<readonly NamedState[]>([]);
  const [wrong, setWrong] = useState<string>();
  const [bar, setBar] = useState("");
  const [looksAt, setLooksAt] = useState<{
    readonly seq: number;
    readonly at: number;
    readonly name?: string;
  }>();
  const [asksName, setAsksName] = useState(false);

  // biome-ignore lint/correctness/useExhaustiveDependencies: read anew when the shop has another last change
  useEffect(() => {
    if (id === undefined) return;
    void Promise.all([shopAsk.history(id), shopAsk.states(id)]).then(
      ([all, named]) => {
        setChanges(all);
        setStates(named);
      },
      (error: unknown) => setWrong(HISTORY.failed((error as Error).message)),
    );
  }, [id, seq]);
  const hours = useMemo(() => hoursOf(changes ?? []), [changes]);
  if (!job || id === undefined) return <p className={parts.wait}>{TOP.jobs}</p>;
  const again = (work: Promise<unknown>): void =>
    void work
      .then(() => shopAsk.states(id))
      .then(setStates, (error: unknown) => setWrong(HISTORY.failed((error as Error).message)));
  const last = changes?.at(-1)?.seq;
  const shown = bar === "" ? hours : hours.filter((h) => h.differs.some((d) => d.bar === bar));
  return (
    <div className={styles.page}>
      <section aria-label={HISTORY.states}>
        <h2>{HISTORY.of(name)}</h2>
        {wrong !== undefined && <p className={classes(parts.says, parts.wrong)}>{wrong}</p>}
        <h3>{HISTORY.states}</h3>
        <ul className={styles.list}>
          {states.map((s) => (
            <li key={s.id}>
              <span className={styles.what}>
                <strong>{s.name}</strong>
                <small>
                  {whenOf(s.at)} · {s.by}
                </small>
              </span>
              <button type="button" onClick={() => setLooksAt(s)}>
                {HISTORY.look}
              </button>
              <button type="button" onClick={() => again(shopAsk.removeState(id, s.id))}>
                {HISTORY.removeName(s.name)}
              </button>
            </li>
          ))}
        </ul>
        <button type="button" disabled={last === undefined} onClick={() => setAsksName(true)}>
          {HISTORY.nameNow}
        </button>
      </section>
      <section aria-label={HISTORY.title}>
        <h3>{HISTORY.title}</h3>
        <label className={styles.filter}>
          {HISTORY.filter}{" "}
          <select value={bar} onChange={(event) => setBar(event.target.value)}>
            <option value="">{HISTORY.all}</option>
            {Object.keys(thingsOf(job.document, "bar")).map((b) => (
              <option key={b} value={b}>
                {calledOf(job.document, "bar", b)}
              </option>
            ))}
          </select>
        </label>
        {changes === undefined && wrong === undefined && <p role="status">{HISTORY.loading}</p>}
        {changes?.length === 0 && <p>{HISTORY.none}</p>}
        <ul className={styles.list}>
          {shown.map((hour) => (
            <li key={hour.seq}>
              <div className={styles.what}>
                <strong>{whenOf(hour.at)}</strong>
                <small>{HISTORY.entry(hour.changes, hour.by)}</small>
                <ul className={styles.parts}>
                  {hour.isFirst && <li>{HISTORY.first}</li>}
                  {hour.differs
                    .filter((d) => bar === "" || d.bar === bar)
                    .slice(0, MOST)
                    .map((d) => (
                      <li key={d.says}>{d.says}</li>
                    ))}
                  {hour.differs.length > MOST && bar === "" && (
                    <li>{HISTORY.more(hour.differs.length - MOST)}</li>
                  )}
                </ul>
              </div>
              <button type="button" onClick={() => setLooksAt(hour)}>
                {HISTORY.look}
              </button>
            </li>
          ))}
        </ul>
      </section>
      {asksName && last !== undefined && (
        <AskText
          title={HISTORY.nameNow}
          label={HISTORY.nameLabel}
          as="label"
          value={HISTORY.firstName}
          done={HISTORY.keep}
          onClose={() => setAsksName(false)}
          onDone={(text) => {
            setAsksName(false);
            again(shopAsk.nameState(id, text, last));
          }}
        />
      )}
      {looksAt && changes && (
        <Look
          then={stateAt(changes, looksAt.seq)}
          now={job.document}
          when={looksAt.name ?? whenOf(looksAt.at)}
          onClose={() => setLooksAt(undefined)}
        />
      )}
    </div>
  );
}

/** A state of before beside the one of now. */
function Look(props: {
  readonly then: JobDocument;
  readonly now: JobDocument;
  readonly when: string;
  readonly onClose: () => void;
}) {
  const { then, now, when, onClose } = props;
  const act = useActions();
  const differs = useMemo(() => differences(then, now), [then, now]);
  return (
    <Dialog title={HISTORY.lookTitle(when)} onClose={onClose} wide>
      <p>{HISTORY.bars(Object.keys(thingsOf(then, "bar")).length)}</p>
      {differs.length === 0 ? (
        <p>{HISTORY.same}</p>
      ) : (
        <>
          <p>{HISTORY.differs(differs.length)}</p>
          <ul className={styles.parts}>
            {differs.slice(0, 3 * MOST).map((d) => (
              <li key={d.says}>{d.says}</li>
            ))}
            {differs.length > 3 * MOST && <li>{HISTORY.more(differs.length - 3 * MOST)}</li>}
          </ul>
          <p>{HISTORY.bringBackMore}</p>
        </>
      )}
      <div className={parts.row}>
        <button
          type="button"
          className={parts.main}
          disabled={differs.length === 0}
          onClick={() => {
            act.run({ name: HISTORY.bringBackStep(when), edit: () => ({ ok: true, document: then }) });
            onClose();
            goToPage("shop");
          }}
        >
          {HISTORY.bringBack}
        </button>
        <button type="button" onClick={() => saveFile(then)}>
          {HISTORY.copy}
        </button>
        <button type="button" onClick={onClose}>
          {HISTORY.close}
        </button>
      </div>
    </Dialog>
  );
}
