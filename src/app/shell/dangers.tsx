import { useMemo } from "react";
import { say, WHO_DECIDES } from "../../words/index.ts";
import { calledOf, namesIn } from "../document/index.ts";
import { writeIn } from "../stations/write.ts";
import { dangersAt, useDangers } from "../ui/use-dangers.ts";
import { useApp } from "../use-app.ts";

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
    <section className="dangers" aria-live="assertive" aria-label="Danger" tabIndex={0}>
      <ul>
        {here.map((f) => (
          <li key={JSON.stringify(f)} className="a-danger">
            <strong>⚠ DANGER</strong>{" "}
            {f.bar !== undefined && f.bar !== inHand && `${calledOf(document, "bar", f.bar)}: `}
            {say(f, write, namesIn(document))}
          </li>
        ))}
      </ul>
      <p>{WHO_DECIDES}</p>
    </section>
  );
}
