import { useState } from "react";
import type { Write } from "../kit/index.ts";
import { LengthPad, mmOf, NumberPad, retyped } from "../kit/index.ts";
import type { Json } from "../model/document/index.ts";
import { BetweenPicture } from "./between-picture.tsx";
import styles from "./measured.module.css";
import { type Between, LEAST_READING, MOST_READING, type TwoTubes } from "./readings.ts";

type Asked =
  | {
      readonly kind: "length";
      readonly key: "od1" | "wall1" | "od2" | "wall2" | "od" | "wall" | "distance";
      readonly label: string;
    }
  | {
      readonly kind: "angle";
      readonly key: "reading1" | "reading2" | "twist" | "trust";
      readonly label: string;
    };

/** What was measured of the two tubes, in sentences; each value a button. */
export function Measured(props: {
  readonly readings: TwoTubes;
  readonly write: Write;
  readonly made: Between;
  readonly onSet: (change: Partial<TwoTubes>) => void;
}) {
  const { readings, write, made } = props;
  const [asked, setAsked] = useState<Asked>();

  function set(change: Partial<TwoTubes>): void {
    setAsked(undefined);
    props.onSet(change);
  }

  const length = (key: Extract<Asked, { kind: "length" }>["key"], label: string) => {
    const figure = said(readings[key], key.startsWith("wall") ? write.fine : write.length);
    return (
      <button
        type="button"
        className="value"
        aria-label={`${label}: ${figure}`}
        onClick={() => setAsked({ kind: "length", key, label })}
      >
        {figure}
      </button>
    );
  };
  const angle = (key: Extract<Asked, { kind: "angle" }>["key"], label: string) => (
    <button
      type="button"
      className="value"
      aria-label={`${label}: ${readings[key]}°`}
      onClick={() => setAsked({ kind: "angle", key, label })}
    >
      {readings[key]}°
    </button>
  );
  const wrong = made.ok ? undefined : made;

  return (
    <>
      <section className={`panel ${styles.in}`} aria-label="What you measured">
        <BetweenPicture readings={readings} write={write} />
        <p className={styles.how}>
          Chalk both tubes on the same side. Stretch a string where the new bar is to run.{" "}
          <strong>Each reading is the angle between the string and the chalked half of the tube</strong>: 90°
          is square, less leans toward the other tube, more leans away. Two parallel tubes read together 180°.
        </p>
        <div className="sentences">
          <div className="sentence">
            <p>
              Tube 1 is {length("od1", "Tube 1, outside diameter")} by {length("wall1", "Tube 1, wall")} and
              reads {angle("reading1", "Reading at tube 1")}
            </p>
          </div>
          <div className="sentence">
            <p>
              Tube 2 is {length("od2", "Tube 2, outside diameter")} by {length("wall2", "Tube 2, wall")} and
              reads {angle("reading2", "Reading at tube 2")}
            </p>
          </div>
          <div className="sentence">
            <p>
              Along the string{" "}
              {length(
                "distance",
                readings.tape === "over"
                  ? "Over both tubes, outside to outside"
                  : "Between the tubes, near side to near side",
              )}
            </p>
          </div>
          <div className="pair" role="group" aria-label="How the tape was laid">
            <button
              type="button"
              aria-pressed={readings.tape === "over"}
              onClick={() => set({ tape: "over" })}
            >
              outside to outside
            </button>
            <button
              type="button"
              aria-pressed={readings.tape === "between"}
              onClick={() => set({ tape: "between" })}
            >
              between them
            </button>
          </div>
          <div className="sentence">
            <p>
              The new bar is {length("od", "New bar, outside diameter")} by {length("wall", "New bar, wall")}
            </p>
          </div>
          <div className="sentence">
            <p>
              Tube 2's chalk stands turned {angle("twist", "Twist")} to tube 1's, clockwise as you look from 1
              to 2; the angle finder is good to ± {angle("trust", "Angle finder good to")}
            </p>
          </div>
          <div className="pair" role="group" aria-label="Units">
            {(["mm", "in"] as const).map((unit) => (
              <button
                key={unit}
                type="button"
                aria-pressed={readings.show.length === unit}
                onClick={() => set({ show: { ...readings.show, length: unit } })}
              >
                {unit === "mm" ? "millimetres" : "inches"}
              </button>
            ))}
          </div>
        </div>
        {wrong && (
          <p className="notice wrong" role="alert">
            {FIELDS[wrong.field]}: {wrong.why}
          </p>
        )}
      </section>
      {asked?.kind === "length" && (
        <LengthPad
          title={asked.label}
          value={readings[asked.key]}
          unit={readings.show.length}
          write={asked.key.startsWith("wall") ? write.fine : write.length}
          onClose={() => setAsked(undefined)}
          onSet={(value) => value !== undefined && set({ [asked.key]: value })}
        />
      )}
      {asked?.kind === "angle" && (
        <NumberPad
          title={asked.label}
          value={readings[asked.key]}
          least={asked.key === "trust" ? 0 : LEAST_READING}
          most={asked.key === "trust" ? 10 : asked.key === "twist" ? 180 : MOST_READING}
          {...(asked.key === "twist" ? { sides: ["clockwise", "counter-clockwise"] as const } : {})}
          onClose={() => setAsked(undefined)}
          onSet={(value) => set({ [asked.key]: value })}
        />
      )}
    </>
  );
}

const FIELDS: Readonly<Record<keyof TwoTubes, string>> = {
  od1: "Tube 1, outside diameter",
  wall1: "Tube 1, wall",
  od2: "Tube 2, outside diameter",
  wall2: "Tube 2, wall",
  od: "New bar, outside diameter",
  wall: "New bar, wall",
  distance: "Distance along the string",
  tape: "How the tape was laid",
  reading1: "Reading at tube 1",
  reading2: "Reading at tube 2",
  twist: "Twist",
  trust: "Angle finder",
  show: "Units",
};

function said(value: Json, write: (mm: number) => string): string {
  if (typeof value === "string") return retyped(value, "mm").text;
  return write(mmOf(value) ?? 0);
}
