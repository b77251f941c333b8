import { useMemo, useState } from "react";
import type { Survey } from "../../core/survey/index.ts";
import { NINETY_FIVE, sayAdvice, worstWay } from "../../words/index.ts";
import {
  addThing,
  at,
  freeId,
  idFrom,
  type JobDocument,
  type Json,
  setValues,
  thingsOf,
} from "../document/index.ts";
import { fieldsOf } from "../stations/thing-fields.ts";
import { Fields } from "../stations/things.tsx";
import { mmOf, retyped } from "../stations/typed.ts";
import { writeIn } from "../stations/write.ts";
import { AskText } from "../ui/dialog.tsx";
import { LengthPad } from "../ui/keypad.tsx";
import { useActions, useApp } from "../use-app.ts";
import { type Draft, pointIds } from "./draft.ts";
import { draftFrom } from "./words.ts";

const AXES = [
  ["forward", "back"],
  ["left", "right"],
  ["up", "down"],
] as const;

/** Every point of the job: where it is, by how much that may be off, or what would fix it. */
export function Points(props: {
  readonly document: JobDocument;
  readonly survey: Survey | undefined;
  /** Takes an advised reading to the pad. */
  readonly onRead: (draft: Draft) => void;
}) {
  const { document, survey, onRead } = props;
  const act = useActions();
  const show = useApp((s) => s.show);
  const write = useMemo(() => writeIn(show), [show]);
  const [isNew, setNew] = useState(false);
  const [edits, setEdits] = useState<string>();
  /** Begun with the first of its two sizes, then waiting for the second. */
  const [datum, setDatum] = useState<"ahead" | readonly [Json]>();
  const ids = [...pointIds(document)].sort((a, b) => rank(a) - rank(b));
  /** What is not fixed first, then what was found, then what was given. */
  function rank(id: string): number {
    if (survey?.undetermined.some((u) => u.id === id)) return 0;
    const given = thingsOf(document, "point")[id];
    return given !== undefined && (Array.isArray(given) || at(given, ["at"]) !== undefined) ? 2 : 1;
  }
  const wide = (mm: number): string => (mm < 10_000 ? write.length(mm) : "metres");

  return (
    <section className="points" aria-label="Points">
      <div className="row">
        <button type="button" className="main" onClick={() => setNew(true)}>
          New point
        </button>
      </div>
      {survey?.mirrored.map(({ points, settle }) => (
        <div key={points.map((p) => p.id).join()} className="notice">
          <p>
            {points.map((p) => p.id).join(", ")} could as well stand on the other side, mirrored:{" "}
            {sayAdvice(settle)} would settle it.
          </p>
          <button type="button" onClick={() => onRead(draftFrom(settle))}>
            Read it
          </button>
        </div>
      ))}
      {ids.length === 0 && (
        <>
          <p>
            No points yet. A car needs a datum first: a mark at the origin, one ahead of it on the centre
            line, and one to the left, all level. The readings find all other points from those.
          </p>
          <div className="row">
            <button type="button" onClick={() => setDatum("ahead")}>
              Begin with a datum
            </button>
          </div>
        </>
      )}
      {datum !== undefined && (
        <LengthPad
          key={String(datum)}
          title={
            datum === "ahead"
              ? "How far ahead of the origin is the second mark?"
              : "How far to its left is the third?"
          }
          value={undefined}
          unit={show.length}
          write={write.length}
          onClose={() => setDatum(undefined)}
          onSet={(size) => {
            if (size === undefined) return;
            if (datum === "ahead") {
              setDatum([size]);
              return;
            }
            setDatum(undefined);
            act.run(
              setValues(
                [
                  [
                    ["points", "origin"],
                    [0, 0, 0],
                  ],
                  [
                    ["points", "ahead"],
                    [datum[0], 0, 0],
                  ],
                  [
                    ["points", "left"],
                    [0, size, 0],
                  ],
                ],
                "begin with a datum",
              ),
            );
          }}
        />
      )}
      <ul className="point-list">
        {ids.map((id) => {
          const given = thingsOf(document, "point")[id];
          const place = Array.isArray(given) ? given : given && at(given, ["at"]);
          const found = survey?.cleaned.points.get(id);
          const loose = survey?.undetermined.find((u) => u.id === id);
          const exact =
            Array.isArray(given) ||
            (place !== undefined && given !== undefined && at(given, ["sd"]) === undefined);
          return (
            <li key={id} className={loose ? "a-point loose" : "a-point"}>
              <header>
                <h2>{id}</h2>
                <p className="quiet">
                  {exact
                    ? "given, exact"
                    : place
                      ? "given, with an error"
                      : found
                        ? "found by the readings"
                        : "not found yet"}
                </p>
                <button
                  type="button"
                  onClick={() => setEdits(edits === id ? undefined : id)}
                  aria-expanded={edits === id}
                >
                  {edits === id ? "Close" : place ? "Place" : "Give its place"}
                </button>
              </header>
              {exact && Array.isArray(place) && (
                <p className="given">
                  {place.map((v, k) => sayCoordinate(v as Json, k, write.length)).join(", ")}
                </p>
              )}
              {found && !exact && (
                <>
                  <dl className="place-of">
                    {AXES.map((names, k) => {
                      const v = found.at[k]!;
                      return (
                        <div key={names[0]}>
                          <dt>{names[v < 0 ? 1 : 0]}</dt>
                          <dd>
                            <strong>{write.length(Math.abs(v))}</strong> ± {write.fine(found.sd[k]!)}
                          </dd>
                        </div>
                      );
                    })}
                  </dl>
                  <p>
                    In 95 of 100 within {wide(NINETY_FIVE * found.ellipsoid.axes[0])}
                    {survey?.suspects.length === 0 && " (its ring in the picture)"}; least sure{" "}
                    {worstWay(found)}.
                  </p>
                </>
              )}
              {loose && (
                <div className="fixes">
                  <p>
                    {loose.readings === 0
                      ? "No reading touches it."
                      : `${loose.readings} reading${loose.readings === 1 ? "" : "s"} touch${loose.readings === 1 ? "es" : ""} it, not enough.`}{" "}
                    {loose.fix.length > 0
                      ? "This would fix it:"
                      : "First find, or give the place of, points to read it from."}
                  </p>
                  {loose.fix.map((advice) => (
                    <button key={sayAdvice(advice)} type="button" onClick={() => onRead(draftFrom(advice))}>
                      {sayAdvice(advice)}
                    </button>
                  ))}
                </div>
              )}
              {edits === id && (
                <Fields document={document} fields={fieldsOf(document, "point", id)} name={`point ${id}`} />
              )}
            </li>
          );
        })}
      </ul>
      {isNew && (
        <AskText
          title="New point"
          label="What is it called? Mark it on the car as well: a punch mark, a scribed cross."
          value="point"
          done="Add it"
          onClose={() => setNew(false)}
          onDone={(text) => {
            setNew(false);
            const id = freeId(document, "point", idFrom(text));
            act.run(addThing("point", id, {}, `new point ${id}`));
          }}
        />
      )}
    </section>
  );
}

/** "600 mm left" as it was typed. */
function sayCoordinate(value: Json, axis: number, write: (mm: number) => string): string {
  const mm = mmOf(value) ?? 0;
  const size = typeof value === "string" ? retyped(value, "mm").text : write(Math.abs(mm));
  return `${size} ${AXES[axis]![mm < 0 ? 1 : 0]}`;
}
