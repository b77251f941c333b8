import { useState } from "react";
import { asRead, type Fits, isPlain } from "../../words/index.ts";
import { at, type JobDocument, type Json, type JsonPath, strikeReading } from "../document/index.ts";
import { AskText } from "../ui/dialog.tsx";
import { useActions } from "../use-app.ts";
import { draftOf } from "./draft.ts";
import { ownError, sayReading } from "./words.ts";

/** Readings as they were read, the newest first; one that does not fit is struck through, never taken out. */
export function ReadingList(props: {
  readonly document: JobDocument;
  readonly path: JsonPath;
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
  if (readings.length === 0) return <p className="quiet none">No readings yet.</p>;
  return (
    <>
      <ol className="readings" reversed aria-label="Readings, the newest first">
        {readings
          .map((reading, i) => ({ reading, i, ...say(reading) }))
          .reverse()
          .map(({ reading, i, words, size }) => {
            const struck = at(reading, ["struck"]) === true;
            const note = at(reading, ["note"]);
            const fit = fits.get(i);
            const state = struck ? "struck" : fit && !fit.ok ? "off" : "fits";
            return (
              <li key={i} className={`a-reading ${state}`}>
                <div>
                  <p className="reading-words">
                    {struck ? <s>{words}</s> : words}
                    {size !== "" && <strong>{struck ? <s>{size}</s> : size}</strong>}
                  </p>
                  <p className="reading-fit">
                    {struck ? (
                      `struck${typeof note === "string" ? `: ${note}` : ""}`
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
                  aria-label={`${struck ? "Let it count" : "Strike"}: ${words} ${size}`}
                  onClick={() => (struck ? act.run(strikeReading(path, i, false)) : setStrikes(i))}
                >
                  {struck ? "Count it" : "Strike"}
                </button>
              </li>
            );
          })}
      </ol>
      {strikes !== undefined && (
        <AskText
          title="Strike this reading"
          label={`${say(readings[strikes]!).words} ${say(readings[strikes]!).size}: why does it not count? It stays in the list, struck through.`}
          value={fits.get(strikes)?.ok === false ? "does not fit the others" : "read anew"}
          done="Strike it"
          onClose={() => setStrikes(undefined)}
          onDone={(why) => {
            act.run(strikeReading(path, strikes, true, why));
            setStrikes(undefined);
          }}
        />
      )}
    </>
  );
}
