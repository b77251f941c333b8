import { useMemo } from "react";
import { DANGERS, say, WHO_DECIDES } from "../../words/index.ts";

import { writeIn } from "../kit/index.ts";
import { calledOf, namesIn } from "../model/document/index.ts";
import { dangersAt, useApp, useDangers } from "../model/state/index.ts";
import styles from "./dangers.module.css";

/**
 * What can hurt a person with the bar in hand (with none: with any bar), over every station. There is nothing here to
 * close, fold or put away: it goes when what it warns of is mended.
 */
export function Dangers() {
  const inHand = useApp((s) => s.inHand);
  const document = useApp((s) => s.job?.document);
  const show = useApp((s) => s.show);
  const write = useMemo(() => writeIn(show), [show]);
  const here = dangersAt(useDangers(), inHand);
  if (!document || here.length === 0) return null;
  return (
    // A long list scrolls in its band: keys must reach it.
    // biome-ignore lint/a11y/noNoninteractiveTabindex: a region that scrolls must take the focus
    <section className={styles.dangers} aria-live="assertive" aria-label={DANGERS.region} tabIndex={0}>
      <ul>
        {here.map((f) => (
          <li key={JSON.stringify(f)}>
            <strong>{DANGERS.danger}</strong>{" "}
            {f.bar !== undefined && f.bar !== inHand && DANGERS.of(calledOf(document, "bar", f.bar))}
            {say(f, write, namesIn(document))}
          </li>
        ))}
      </ul>
      <p>{WHO_DECIDES}</p>
    </section>
  );
}
