import { Suspense, useEffect, useMemo, useState } from "react";
import type { Finding } from "../../core/findings/index.ts";
import { DANGERS, say, WHO_DECIDES } from "../../words/index.ts";
import { writeIn } from "../kit/index.ts";
import { calledOf, namesIn } from "../model/document/index.ts";
import { dangersAt, useApp, useAppItself, useDangers } from "../model/state/index.ts";
import { LeadsOf } from "../things/index.ts";
import styles from "./dangers.module.css";

/**
 * What can hurt a person with the bar in hand (with none: with any bar), over every station: one line, which opens to
 * the sentences. It cannot be closed: it goes when what it warns of is mended. One that is new is read out at once.
 */
export function Dangers(props: { readonly isOpen: boolean; readonly setOpen: (isOpen: boolean) => void }) {
  const { isOpen, setOpen } = props;
  const inHand = useApp((s) => s.inHand);
  const document = useApp((s) => s.job?.document);
  const show = useApp((s) => s.show);
  const write = useMemo(() => writeIn(show), [show]);
  const here = dangersAt(useDangers(), inHand);
  const called = (bar: string | undefined): string =>
    bar === undefined || bar === inHand ? "" : DANGERS.of(calledOf(document ?? {}, "bar", bar));
  const said = document
    ? here.map(
        (f) => [keyOf(f), `${DANGERS.danger} ${called(f.bar)}${say(f, write, namesIn(document))}`] as const,
      )
    : [];
  const alert = useNew(said);
  const [first] = here;
  if (said.length === 0) return null;
  return (
    <section className={styles.dangers} aria-label={DANGERS.region}>
      {alert.length > 0 && (
        <div className={styles.alert} role="alert">
          {alert.map((sentence) => (
            <p key={sentence}>{sentence}</p>
          ))}
        </div>
      )}
      <div className={styles.line}>
        <p>
          <strong>{DANGERS.count(here.length)}</strong>{" "}
          {!isOpen &&
            first &&
            DANGERS.first(`${called(first.bar)}${DANGERS.short(first.code)}`, here.length - 1)}
        </p>
        <button type="button" aria-expanded={isOpen} onClick={() => setOpen(!isOpen)}>
          {isOpen ? DANGERS.hide : DANGERS.show}
        </button>
      </div>
      {isOpen && (
        // A long list scrolls in its band: keys must reach it.
        // biome-ignore lint/a11y/noNoninteractiveTabindex: what scrolls must take the focus
        <div className={styles.all} tabIndex={0}>
          <ul>
            {said.map(([, sentence]) => (
              <li key={sentence}>{sentence}</li>
            ))}
          </ul>
          <Suspense fallback={null}>
            <LeadsOf findings={here} />
          </Suspense>
          <p>{WHO_DECIDES}</p>
        </div>
      )}
    </section>
  );
}

/** One danger whatever its figures are now, the unit they are written in, and the bar in hand. */
const keyOf = ({ code, place, values }: Finding): string =>
  [
    code,
    place,
    ...Object.values(values).map((v) => JSON.stringify("count" in v || "bar" in v || "plate" in v ? v : "")),
  ].join(" ");

/** How long what is new is there to be read out (ms); the line stays. */
const READ_OUT = 4000;

/** What was read out since the page was opened, each with its job. */
const readOut = (): Set<string> => new Set();

/** The sentences of dangers that were not there at any time before, for a while. */
function useNew(said: readonly (readonly [key: string, sentence: string])[]): readonly string[] {
  const known = useAppItself().own(readOut);
  const job = useApp((s) => s.job?.entry.id);
  const [alert, setAlert] = useState<readonly string[]>([]);
  const all = said.map(([key]) => key).join("\n");
  // biome-ignore lint/correctness/useExhaustiveDependencies: the dangers by their keys; their words as they are when one is new
  useEffect(() => {
    const fresh = said.filter(([key]) => !known.has(`${job} ${key}`));
    for (const [key] of fresh) known.add(`${job} ${key}`);
    if (fresh.length > 0) setAlert(fresh.map(([, sentence]) => sentence));
  }, [all, job, known]);
  useEffect(() => {
    if (alert.length === 0) return;
    const over = setTimeout(() => setAlert([]), READ_OUT);
    return () => clearTimeout(over);
  }, [alert]);
  return alert;
}
