import { useState } from "react";
import { asRead, type Fits, isPlain, READING_LIST } from "../../words/index.ts";
import { AskText, classes, parts } from "../kit/index.ts";
import { at, type JobDocument, type Json, type JsonPath, strikeReading } from "../model/document/index.ts";
import { useActions } from "../model/state/index.ts";
import { draftOf } from "./draft.ts";
import styles from "./reading-list.module.css";
import { ownError, sayReading } from "./say-reading.ts";

/** Readings as they were read, the newest first; one that does not fit is struck through, never taken out. */
export function ReadingList(props: {
  readonly document: JobDocument;
  readonly path: JsonPath;
  /** Which of them, by their place in the list; all where absent. */
  readonly only?: readonly number[];
  readonly label?: string;
  readonly fits: ReadonlyMap<number, Fits>;
  /** What to say of one that counts and of which nothing is known. */
  readonly unknown: string;
  /** Words and size of a reading; those of the car where absent. */
  readonly say?: (reading: Json) => { readonly words: string; readonly size: string };
}) {
  const { document, path, fits } = props;
  const act = useActions();
  const [strikes, setStrikes] = useState<number>();
  const list = at(document, path);
  const readings = Array.isArray(list) ? (list as readonly Json[]) : [];
  const say =
    props.say ??
    ((reading: Json) => {
      const draft = draftOf(reading);
      return {
        words: draft ? sayReading(draft, document) : "",
        size: draft
          ? [isPlain(draft.kind) ? "" : asRead(draft.value, draft.kind), ownError(draft)].join(" ").trim()
          : "",
      };
    });
  const struckNow = strikes === undefined ? undefined : readings[strikes];
  const asked = struckNow === undefined ? undefined : say(struckNow);
  if (readings.length === 0) return <p className={classes(parts.quiet, styles.none)}>{READING_LIST.none}</p>;
  return (
    <>
      <ol className={styles.list} reversed aria-label={props.label ?? READING_LIST.list}>
        {(props.only ?? readings.map((_, i) => i))
          .flatMap((i) => {
            const reading = readings[i];
            return reading === undefined ? [] : [{ reading, i, ...say(reading) }];
          })
          .reverse()
          .map(({ reading, i, words, size }) => {
            const struck = at(reading, ["struck"]) === true;
            const note = at(reading, ["note"]);
            const fit = fits.get(i);
            const state = struck ? styles.struck : fit && !fit.ok ? styles.off : "";
            return (
              <li key={i} className={`${styles.reading} ${state}`}>
                <div>
                  <p className={styles.words}>
                    <span>
                      {props.only && `${i + 1}. `}
                      {struck ? <s>{words}</s> : words}
                    </span>
                    {size !== "" && <strong>{struck ? <s>{size}</s> : size}</strong>}
                  </p>
                  <p className={styles.fit}>
                    {struck ? (
                      READING_LIST.struck(typeof note === "string" ? note : undefined)
                    ) : (
                      <>
                        {fit && !fit.ok && <span aria-hidden="true">⚠ </span>}
                        {fit?.says ?? props.unknown}
                      </>
                    )}
                  </p>
                </div>
                <button
                  type="button"
                  aria-label={(struck ? READING_LIST.restoreOf : READING_LIST.strikeOf)(
                    `${words} ${size}`.trim(),
                  )}
                  onClick={() => (struck ? act.run(strikeReading(path, i, false)) : setStrikes(i))}
                >
                  {struck ? READING_LIST.restore : READING_LIST.strike}
                </button>
              </li>
            );
          })}
      </ol>
      {strikes !== undefined && asked && (
        <AskText
          title={READING_LIST.title}
          label={READING_LIST.reason}
          value={fits.get(strikes)?.ok === false ? READING_LIST.doesNotFit : READING_LIST.readAgain}
          done={READING_LIST.strike}
          onClose={() => setStrikes(undefined)}
          onDone={(why) => {
            act.run(strikeReading(path, strikes, true, why));
            setStrikes(undefined);
          }}
        >
          <p>
            {asked.words} <strong>{asked.size}</strong>
          </p>
        </AskText>
      )}
    </>
  );
}
