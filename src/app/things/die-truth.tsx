import { useMemo } from "react";
import { diePlot } from "../../cards/die-plot.ts";
import { calibrate, isBelievable } from "../../core/bend/index.ts";
import { severityOf } from "../../core/findings/index.ts";
import { capital, DIE_CARD, DIE_PLOT, DIE_TRUTH, EXPLAIN_ERROR, IDS, say } from "../../words/index.ts";
import { Picture, parts, writeIn } from "../kit/index.ts";
import { setValue } from "../model/document/index.ts";
import type { Edit } from "./edit.ts";
import styles from "./things.module.css";

/** Width of the plot as drawn (mm); the page scales it. */
const WIDE = 96;

/** What the test bends of a die say, each with its ±, drawn, and with what to do about it. */
export function DieTruth({ id, edit }: { readonly id: string; readonly edit: Edit }) {
  const write = useMemo(() => writeIn(edit.show), [edit.show]);
  const die = edit.job?.dies[id];
  const errors = edit.job?.shop.errors;
  const card = useMemo(
    () => die && errors && calibrate(die.tests, die, `dies.${id}.tests`, errors),
    [die, errors, id],
  );
  const sheet = useMemo(() => {
    if (!die || !card || die.tests.length === 0) return undefined;
    const { marks, height } = diePlot(die, card, WIDE);
    return { name: DIE_PLOT.label(die.tests.length), width: WIDE, height, marks };
  }, [die, card]);
  if (!die || !card) return null;
  if (die.tests.length === 0) return <p className={parts.quiet}>{DIE_TRUTH.none}</p>;
  const { springback } = card;
  const isTrue = isBelievable(die, card);
  const radius = isTrue ? card.radius : undefined;
  const tidy = (x: number, step: number): number => Math.round(x / step) * step;
  const set = (key: "clr" | "arcFactor", to: number, says: string): void =>
    edit.run(setValue(["dies", id, key], Number(to.toFixed(4)), DIE_TRUTH.step(id, says)));
  return (
    <section className={styles.truth} aria-label={DIE_TRUTH.label(id)}>
      <h4>{DIE_TRUTH.title}</h4>
      <dl className={styles.figures}>
        {springback && (
          <div>
            <dt>{DIE_TRUTH.springback}</dt>
            <dd>
              <strong>{DIE_CARD.line(springback.k.value, springback.c.value)}</strong>{" "}
              {DIE_CARD.lineError(springback.k.sd, springback.basis === "line" ? springback.c.sd : undefined)}
            </dd>
          </div>
        )}
        {radius && (
          <div>
            <dt>{DIE_TRUTH.radius}</dt>
            <dd>
              <strong>{write.length(radius.clr.value)}</strong> ± {write.length(radius.clr.sd)}
            </dd>
          </div>
        )}
        {radius?.arcFactor && (
          <div>
            <dt>{DIE_TRUTH.arcFactor}</dt>
            <dd>
              <strong>{radius.arcFactor.value.toFixed(3)}</strong> ± {radius.arcFactor.sd.toFixed(3)}
            </dd>
          </div>
        )}
      </dl>
      {!isTrue && <p className={styles.wrong}>{DIE_TRUTH.wrong}</p>}
      {die.springback && <p className={styles.wrong}>{DIE_TRUTH.given}</p>}
      {sheet && (
        <figure className={styles.plot}>
          <Picture sheet={sheet} label={sheet.name} />
          <figcaption>
            {DIE_PLOT.note} {EXPLAIN_ERROR}
          </figcaption>
        </figure>
      )}
      {card.findings.length > 0 && (
        <ul className={parts.findings}>
          {card.findings.map((f) => (
            <li key={`${f.code} ${f.place}`}>
              <strong>{severityOf(f)}</strong> {capital(say(f, write, IDS))}.
            </li>
          ))}
        </ul>
      )}
      <div className={parts.row}>
        {radius && Math.abs(radius.clr.value - die.clr) > 0.05 && (
          <button
            type="button"
            onClick={() =>
              set("clr", tidy(radius.clr.value, 0.1), DIE_TRUTH.radiusFrom(write.length(radius.clr.value)))
            }
          >
            {DIE_TRUTH.radiusFrom(write.length(radius.clr.value))}
          </button>
        )}
        {radius?.arcFactor && Math.abs(radius.arcFactor.value - die.arcFactor) > 0.0005 && (
          <button
            type="button"
            onClick={() => {
              const value = radius.arcFactor?.value ?? 1;
              set("arcFactor", tidy(value, 0.001), DIE_TRUTH.arcFrom(value));
            }}
          >
            {DIE_TRUTH.arcFrom(radius.arcFactor.value)}
          </button>
        )}
      </div>
    </section>
  );
}
