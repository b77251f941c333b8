import { useMemo, useState } from "react";
import { bentReading, type CheckSize, checkSizes, judgeCheck } from "../../../core/plan/index.ts";
import {
  CHECK_SIZES,
  COMPUTING,
  EXPLAIN_ERROR,
  BENDER_PAGE as PAGE,
  READING_LIST,
  sayBentSize,
  small,
  TO_READ,
} from "../../../words/index.ts";
import { classes, parts, type Write } from "../../kit/index.ts";
import type { BarResult } from "../../model/compute/index.ts";
import { addReading, at, calledOf, type Json, readAgain } from "../../model/document/index.ts";
import { useActions, useApp } from "../../model/state/index.ts";
import {
  AskBent,
  type BentDraft,
  bentAsRead,
  bentJson,
  draftOfReading,
  lastRead,
} from "../../readings/index.ts";
import styles from "./check-list.module.css";
import { sayCheckWords, sayJudged, writeSize } from "./check-words.ts";

/** What to read after a bend, each size with its ±; a size of the finished bar is a field, kept as a reading of it. */
export function CheckList(props: {
  readonly id: string;
  readonly result: BarResult;
  readonly bend: number;
  readonly write: Write;
}) {
  const { id, result, bend, write } = props;
  const act = useActions();
  const document = useApp((s) => s.job?.document);
  const job = useApp((s) => (s.job?.read.ok ? s.job.read.job : undefined));
  const [asked, setAsked] = useState<BentDraft>();
  const sizes = useMemo(() => (job ? checkSizes(result, job, bend, result.checks) : []), [result, job, bend]);
  if (!job || !document) return <p className={parts.quiet}>{COMPUTING}</p>;
  const path = ["made", id, "bent"];
  const readings = at(document, path);

  function keep(value: Json): void {
    if (!asked || !document) return;
    setAsked(undefined);
    const name = TO_READ.command(calledOf(document, "bar", id), small(sayBentSize(asked)));
    const earlier = lastRead(readings, asked);
    const reading = bentJson(asked, value);
    act.run(
      earlier === undefined
        ? addReading(path, reading, name)
        : readAgain(path, earlier, reading, { why: READING_LIST.readAgain, name }),
    );
  }

  return (
    <>
      <ul className={styles.sizes} aria-label={PAGE.check(bend)}>
        {sizes.map((size) => {
          const draft = size.reading && draftOfReading(size.reading);
          const index = draft && lastRead(readings, draft);
          const kept = index === undefined ? undefined : job.made?.[id]?.bent?.[index];
          return (
            <Size
              key={sayCheckWords(size, bend, write)}
              size={size}
              bend={bend}
              write={write}
              draft={draft}
              read={kept && bentReading(kept).value}
              typed={index === undefined ? undefined : bentAsRead(at(readings ?? [], [index]) ?? null)}
              onAsk={() => setAsked(draft)}
            />
          );
        })}
      </ul>
      <p className={parts.quiet}>{EXPLAIN_ERROR}</p>
      {asked && <AskBent size={asked} write={write} onClose={() => setAsked(undefined)} onSet={keep} />}
    </>
  );
}

function Size(props: {
  readonly size: CheckSize;
  readonly bend: number;
  readonly write: Write;
  /** Absent for a size that is none of the finished bar. */
  readonly draft: BentDraft | undefined;
  /** What was read, as computed with and as typed. */
  readonly read: number | undefined;
  readonly typed: string | undefined;
  readonly onAsk: () => void;
}) {
  const { size, bend, write, draft, read, typed } = props;
  const act = useActions();
  const judged = read === undefined ? undefined : judgeCheck(size, read);
  const said = judged && sayJudged(size, judged, write);
  const figure = writeSize(size, size.value, write);
  return (
    <li>
      <div>
        <p>
          <strong>{size.sd === undefined ? figure : `${figure} ± ${writeSize(size, size.sd, write)}`}</strong>{" "}
          {sayCheckWords(size, bend, write)}
        </p>
        {size.not !== undefined && <p className={styles.not}>{CHECK_SIZES.not(size.not)}</p>}
        {said && (
          <p className={classes(styles.says, said.isOff && styles.off)}>
            {said.isOff && <span aria-hidden="true">⚠ </span>}
            {said.says}
          </p>
        )}
      </div>
      {draft && (
        <button
          type="button"
          className={parts.value}
          aria-label={CHECK_SIZES.field(sayBentSize(draft), typed)}
          onClick={props.onAsk}
        >
          {typed ?? CHECK_SIZES.enter}
        </button>
      )}
      {said && (
        <button
          type="button"
          className={said.isOff ? parts.main : undefined}
          onClick={() => act.goTo("trestles")}
        >
          {PAGE.toTrestles}
        </button>
      )}
    </li>
  );
}
