import { useEffect, useMemo, useState } from "react";
import { DANGERS, say, WHO_DECIDES } from "../../words/index.ts";
import { writeIn } from "../kit/index.ts";
import { calledOf, namesIn } from "../model/document/index.ts";
import { dangersAt, useApp, useAppItself, useDangers } from "../model/state/index.ts";
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
  const sentences = document
    ? here.map((f) => `${DANGERS.danger} ${called(f.bar)}${say(f, write, namesIn(document))}`)
    : [];
  const alert = useNew(sentences);
  const [first] = here;
  if (sentences.length === 0) return null;
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
            {sentences.map((sentence) => (
              <li key={sentence}>{sentence}</li>
            ))}
          </ul>
          <p>{WHO_DECIDES}</p>
        </div>
      )}
    </section>
  );
}

/** How long what is new is there to be read out (ms); the line stays. */
const READ_OUT = 4000;

/** What was read out since the page was opened, each with its job. */
const readOut = (): Set<string> => new Set();

/** The sentences that were not there at any time before, for a while. */
function useNew(sentences: readonly string[]): readonly string[] {
  const known = useAppItself().own(readOut);
  const job = useApp((s) => s.job?.entry.id);
  const [alert, setAlert] = useState<readonly string[]>([]);
  const all = sentences.join("\n");
  useEffect(() => {
    const fresh = all.split("\n").filter((one) => one !== "" && !known.has(`${job} ${one}`));
    for (const one of fresh) known.add(`${job} ${one}`);
    if (fresh.length > 0) setAlert(fresh);
  }, [all, job, known]);
  useEffect(() => {
    if (alert.length === 0) return;
    const over = setTimeout(() => setAlert([]), READ_OUT);
    return () => clearTimeout(over);
  }, [alert]);
  return alert;
}
