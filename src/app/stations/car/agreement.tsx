import { Suspense, useMemo } from "react";
import { isError } from "../../../core/findings/index.ts";
import type { Survey } from "../../../core/survey/index.ts";
import { AGREEMENT, agreeWords, asRead, fitsOf, leanWords, say, sayAdvice } from "../../../words/index.ts";
import { parts, writeIn } from "../../kit/index.ts";
import { at, type JobDocument, namesIn, strikeReading } from "../../model/document/index.ts";
import { useActions, useApp } from "../../model/state/index.ts";
import { type Draft, draftFrom, draftOf, sayReading } from "../../readings/index.ts";
import { LeadsOf } from "../../things/index.ts";
import styles from "./agreement.module.css";

/** Findings that have another place here: beside the reading, beside the point, or in the sentence above. */
const ELSEWHERE: ReadonlySet<string> = new Set([
  "survey-suspect",
  "survey-suspect-among",
  "survey-unit",
  "survey-undetermined",
  "survey-mirror",
  "survey-test",
  "survey-unchecked",
]);

/** Whether the readings agree, and the one to take next. */
export function Agreement(props: {
  readonly document: JobDocument;
  readonly survey: Survey | undefined;
  readonly onRead: (draft: Draft, of: string) => void;
}) {
  const { document, survey, onRead } = props;
  const show = useApp((s) => s.show);
  const write = useMemo(() => writeIn(show), [show]);
  if (!survey) return null;
  const agree = agreeWords(survey);
  const { next } = survey;
  /** What the errors of the shop decide is set there; all else is read here. */
  const errors = survey.findings.filter((f) => f.code === "survey-test");
  const other = survey.findings.filter((f) => !ELSEWHERE.has(f.code));
  return (
    <section className={styles.agreement} aria-label={AGREEMENT.label} aria-live="polite">
      {(!survey.converged || survey.readings.length > 0) && (
        <p className={agree.ok ? styles.agree : `${styles.agree} ${styles.off}`}>
          {!agree.ok && <span aria-hidden="true">⚠ </span>}
          {agree.says}
        </p>
      )}
      <Suspects document={document} survey={survey} />
      {leanWords(survey.cleaned, write).map((says) => (
        <p key={says}>{says}</p>
      ))}
      {next && (
        <div className={styles.next}>
          <p>
            {AGREEMENT.readNext} <strong>{sayAdvice(next.reading)}</strong>.{" "}
            {AGREEMENT.gains(next.point, write.fine(next.before), write.fine(next.after))}
          </p>
          <button type="button" onClick={() => onRead(draftFrom(next.reading), next.point)}>
            {AGREEMENT.take}
          </button>
        </div>
      )}
      {other.length > 0 && (
        <ul className={parts.findings}>
          {other.map((f) => (
            <li
              key={`${f.code} ${f.place} ${JSON.stringify(f.values)}`}
              className={isError(f) ? parts.error : undefined}
            >
              {say(f, write, namesIn(document))}
            </li>
          ))}
        </ul>
      )}
      {errors.length > 0 && (
        <Suspense fallback={null}>
          <LeadsOf findings={errors} />
        </Suspense>
      )}
    </section>
  );
}

/** Readings that do not fit the others, each to be struck out by one tap. */
function Suspects({ document, survey }: { readonly document: JobDocument; readonly survey: Survey }) {
  const act = useActions();
  const show = useApp((s) => s.show);
  const fits = useMemo(() => fitsOf(survey, writeIn(show)), [survey, show]);
  return survey.suspects.map(({ index }) => {
    const reading = at(document, ["readings", index]);
    const draft = draftOf(reading);
    if (!draft || at(reading ?? null, ["struck"]) === true) return null;
    const words = sayReading(draft, document);
    return (
      <div key={index} className={styles.suspect}>
        <p>
          <strong>
            {words} {asRead(draft.value, draft.kind)}
          </strong>{" "}
          {fits.get(index)?.says}
        </p>
        <button
          type="button"
          aria-label={AGREEMENT.strikeOf(words)}
          onClick={() => act.run(strikeReading(["readings"], index, true, AGREEMENT.why))}
        >
          {AGREEMENT.strike}
        </button>
      </div>
    );
  });
}
