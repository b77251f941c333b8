import { useState } from "react";
import {
  CAR_PLACES,
  CAR_SIDES,
  type CarSide,
  carPlaceId,
  NEW_POINT,
  PICK_END,
  pointWords,
  CHOOSE_POINT as SAYS,
} from "../../../words/index.ts";
import { AskText, classes, Dialog, parts, recall, remember } from "../../kit/index.ts";
import { addThing, at, freeId, idFrom, type JobDocument, thingsOf } from "../../model/document/index.ts";
import { useActions } from "../../model/state/index.ts";
import { pointIds } from "../../readings/index.ts";
import styles from "./choose-point.module.css";

const SIDE = "car side";

/** Which point is measured next: one of the job, or a new one by its place on the car and its side. */
export function ChoosePoint(props: {
  readonly document: JobDocument;
  readonly onChosen: (id: string) => void;
  readonly onClose: () => void;
}) {
  const { document, onChosen, onClose } = props;
  const act = useActions();
  const [side, setSide] = useState<CarSide>(() => CAR_SIDES.find((s) => s === recall(SIDE)) ?? "left");
  const [isNamed, setNamed] = useState(false);
  const ids = pointIds(document);

  function choose(to: CarSide): void {
    setSide(to);
    remember(SIDE, to);
  }
  /** Takes the point of that place; adds it where the job has none yet. */
  function take(id: string): void {
    if (ids.includes(id) || act.run(addThing("point", id, {}, NEW_POINT.command(id))).ok) onChosen(id);
  }
  /** A name that words by hyphens cannot say stays as it was typed. */
  function takeNamed(text: string): void {
    const slug = idFrom(text);
    take(freeId(document, "point", pointWords(slug) === text ? slug : text));
  }

  if (isNamed)
    return (
      <AskText
        title={NEW_POINT.title}
        label={NEW_POINT.name}
        as="label"
        value={NEW_POINT.usual}
        done={NEW_POINT.done}
        onClose={() => setNamed(false)}
        onDone={takeNamed}
      />
    );
  return (
    <Dialog title={SAYS.title} onClose={onClose} wide>
      <div className={classes(parts.pair, styles.side)} role="group" aria-label={SAYS.side}>
        {CAR_SIDES.map((s) => (
          <button key={s} type="button" aria-pressed={s === side} onClick={() => choose(s)}>
            {SAYS.sides[s]}
          </button>
        ))}
      </div>
      {ids.length > 0 && (
        <section aria-label={SAYS.inJob}>
          <h3>{SAYS.inJob}</h3>
          <ul className={styles.places}>
            {ids.map((id) => (
              <li key={id}>
                <button type="button" onClick={() => onChosen(id)}>
                  <span>{pointWords(id)}</span>
                  {isUnknown(document, id) && <small>{PICK_END.notFound}</small>}
                </button>
              </li>
            ))}
          </ul>
        </section>
      )}
      {CAR_PLACES.map(({ where, places }) => (
        <section key={where} aria-label={SAYS.places(where)}>
          <h3>{SAYS.places(where)}</h3>
          <ul className={styles.places}>
            {places.map(([place, says]) => {
              const id = carPlaceId(place, side);
              const isThere = ids.includes(id);
              return (
                <li key={place}>
                  <button type="button" onClick={() => take(id)}>
                    <span>{says}</span>
                    {isThere && <small>{SAYS.isThere}</small>}
                  </button>
                </li>
              );
            })}
          </ul>
        </section>
      ))}
      <button type="button" onClick={() => setNamed(true)}>
        {SAYS.own}
      </button>
    </Dialog>
  );
}

const isUnknown = (document: JobDocument, id: string): boolean => {
  const point = thingsOf(document, "point")[id];
  return point !== undefined && !Array.isArray(point) && at(point, ["at"]) === undefined;
};
