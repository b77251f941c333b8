import { useMemo } from "react";
import type { Survey, SurveyPoint } from "../../../core/survey/index.ts";
import { AXES, NINETY_FIVE, POINTS, pointWords, sayAdvice, worstWay } from "../../../words/index.ts";
import { mmOf, parts, retyped, type Write, writeIn } from "../../kit/index.ts";
import { at, type JobDocument, type Json, thingsOf } from "../../model/document/index.ts";
import { useApp } from "../../model/state/index.ts";
import { type Draft, draftFrom } from "../../readings/index.ts";
import { Fields, fieldsOf, useEdit } from "../../things/index.ts";
import styles from "./point-card.module.css";
import { Sizes } from "./sizes.tsx";

/** One point: its place and error, or the readings that would fix it. */
export function PointCard(props: {
  readonly id: string;
  readonly document: JobDocument;
  readonly survey: Survey | undefined;
  readonly isEdited: boolean;
  readonly onEdit: () => void;
  readonly onRead: (draft: Draft, of: string) => void;
}) {
  const { id, document, survey, isEdited, onRead } = props;
  const edit = useEdit();
  const show = useApp((s) => s.show);
  const write = useMemo(() => writeIn(show), [show]);
  const given = thingsOf(document, "point")[id];
  const place = Array.isArray(given) ? given : given && at(given, ["at"]);
  const found = survey?.cleaned.points.get(id);
  const loose = survey?.undetermined.find((u) => u.id === id);
  const exact =
    Array.isArray(given) || (place !== undefined && given !== undefined && at(given, ["sd"]) === undefined);
  const state = exact ? "exact" : place ? "given" : found ? "found" : "loose";
  return (
    <li className={loose ? `${styles.point} ${styles.loose}` : styles.point}>
      <header>
        <h2>{pointWords(id)}</h2>
        <p className={parts.quiet}>{POINTS.state[state]}</p>
        <button type="button" onClick={props.onEdit} aria-expanded={isEdited}>
          {isEdited ? POINTS.close : place ? POINTS.edit : POINTS.enter}
        </button>
      </header>
      {exact && Array.isArray(place) && (
        <p className={styles.given}>
          {place.map((v, k) => sayCoordinate(v as Json, k, write.length)).join(", ")}
        </p>
      )}
      {found && !exact && <Found found={found} hasRing={survey?.suspects.length === 0} write={write} />}
      {loose && (
        <div className={styles.fixes}>
          <p>
            {loose.readings === 0 ? POINTS.noReading : POINTS.few(loose.readings)}{" "}
            {loose.fix.length > 0 ? POINTS.fix : POINTS.noFix}
          </p>
          {loose.fix.map((advice) => (
            <button key={sayAdvice(advice)} type="button" onClick={() => onRead(draftFrom(advice), id)}>
              {sayAdvice(advice)}
            </button>
          ))}
        </div>
      )}
      {isEdited && edit && (
        <Fields edit={edit} fields={fieldsOf(document, "point", id)} name={POINTS.fields(id)} />
      )}
    </li>
  );
}

/** Where readings put a point, and how far off that may be. */
function Found(props: { readonly found: SurveyPoint; readonly hasRing: boolean; readonly write: Write }) {
  const { found, write } = props;
  const sizes = [0, 1, 2].flatMap((k) => {
    const [v, sd, names] = [found.at[k], found.sd[k], AXES[k]];
    if (v === undefined || sd === undefined || !names) return [];
    return [{ name: names[v < 0 ? 1 : 0], size: write.length(Math.abs(v)), error: write.fine(sd) }];
  });
  const within = NINETY_FIVE * found.ellipsoid.axes[0];
  return (
    <>
      <Sizes sizes={sizes} />
      <p>
        {POINTS.within(within < 10_000 ? write.length(within) : POINTS.far, props.hasRing)}{" "}
        {POINTS.worst(worstWay(found))}
      </p>
    </>
  );
}

/** "600 mm left" as it was typed. */
function sayCoordinate(value: Json, axis: number, write: (mm: number) => string): string {
  const mm = mmOf(value) ?? 0;
  const size = typeof value === "string" ? retyped(value, "mm").text : write(Math.abs(mm));
  return `${size} ${AXES[axis]?.[mm < 0 ? 1 : 0] ?? ""}`;
}
