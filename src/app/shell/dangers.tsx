import { Suspense, useEffect, useMemo, useState } from "react";
import type { Finding, Quantity } from "../../core/findings/index.ts";
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
  const dangers = useDangers();
  const here = useMemo(() => dangersAt(dangers, inHand), [dangers, inHand]);
  const called = (bar: string | undefined): string =>
    bar === undefined || bar === inHand ? "" : DANGERS.of(calledOf(document ?? {}, "bar", bar));
  const names = useMemo(() => namesIn(document ?? {}), [document]);
  const sentence = (f: Finding): string => `${DANGERS.danger} ${called(f.bar)}${say(f, write, names)}`;
  const alert = useNew(here, sentence);
  const [first] = here;
  if (!document || !first) return null;
  return (
    <section className={styles.dangers} aria-label={DANGERS.region}>
      {alert.length > 0 && (
        <div className={styles.alert} role="alert">
          {alert.map((text) => (
            <p key={text}>{text}</p>
          ))}
        </div>
      )}
      <div className={styles.line}>
        <p>
          <strong>{DANGERS.count(here.length)}</strong>{" "}
          {!isOpen && DANGERS.first(`${called(first.bar)}${DANGERS.short(first.code)}`, here.length - 1)}
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
            {here.map(sentence).map((text) => (
              <li key={text}>{text}</li>
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

const keys = new WeakMap<Finding, string>();

/** One danger whatever its figures are now, the unit they are written in, and the bar in hand. */
function keyOf(danger: Finding): string {
  const { code, place, values } = danger;
  const what = (v: Quantity): string => JSON.stringify("count" in v || "bar" in v || "plate" in v ? v : "");
  const key = keys.get(danger) ?? [code, place, ...Object.values(values).map(what)].join(" ");
  keys.set(danger, key);
  return key;
}

/** How long what is new is there to be read out (ms); the line stays. */
const READ_OUT = 4000;

/** What was read out since the page was opened, each with its job. */
const readOut = (): Set<string> => new Set();

/** The sentences of dangers that were not there at any time before, for a while. */
function useNew(here: readonly Finding[], sentence: (danger: Finding) => string): readonly string[] {
  const known = useAppItself().own(readOut);
  const job = useApp((s) => s.job?.entry.id);
  const [alert, setAlert] = useState<readonly string[]>([]);
  // biome-ignore lint/correctness/useExhaustiveDependencies: the words are those of the moment in which one is new
  useEffect(() => {
    const fresh = here.filter((danger) => !known.has(`${job} ${keyOf(danger)}`));
    for (const danger of fresh) known.add(`${job} ${keyOf(danger)}`);
    if (fresh.length > 0) setAlert(fresh.map(sentence));
  }, [here, job, known]);
  useEffect(() => {
    if (alert.length === 0) return;
    const over = setTimeout(() => setAlert([]), READ_OUT);
    return () => clearTimeout(over);
  }, [alert]);
  return alert;
}
