import { type ReactNode, useState } from "react";
import { MEASURED, MEASURES } from "../../words/index.ts";
import type { Write } from "../kit/index.ts";
import { classes, LengthPad, mmOf, NumberPad, parts, retyped } from "../kit/index.ts";
import type { Json } from "../model/document/index.ts";
import { BetweenPicture } from "./between-picture.tsx";
import styles from "./measured.module.css";
import { type Between, LEAST_READING, MOST_READING, type TwoTubes } from "./readings.ts";

const LENGTHS = ["od1", "wall1", "od2", "wall2", "od", "wall", "distance"] as const;
const ANGLES = ["reading1", "reading2", "twist", "trust"] as const;
type Length = (typeof LENGTHS)[number];
type Angle = (typeof ANGLES)[number];

const isWall = (key: Length): boolean => key.startsWith("wall");

/** What was measured of the two tubes, in sentences; each value a button. */
export function Measured(props: {
  readonly readings: TwoTubes;
  readonly write: Write;
  readonly made: Between;
  readonly onSet: (change: Partial<TwoTubes>) => void;
}) {
  const { readings, write, made, onSet } = props;
  const [asked, setAsked] = useState<Length | Angle>();

  const nameOf = (key: Exclude<keyof TwoTubes, "set">): string =>
    key === "distance"
      ? MEASURES[readings.tape]
      : key === "tape"
        ? MEASURED.tape
        : key === "show"
          ? MEASURED.units
          : MEASURES[key];
  const figureOf = (key: Length | Angle): string =>
    isAngle(key) ? `${readings[key]}°` : asTyped(readings[key], isWall(key) ? write.fine : write.length);
  const isExample = (key: Length | Angle): boolean => readings.set?.includes(key) !== true;
  const value = (key: Length | Angle): ReactNode => (
    <>
      <button
        type="button"
        className={parts.value}
        aria-label={MEASURED.named(nameOf(key), figureOf(key))}
        onClick={() => setAsked(key)}
      >
        {figureOf(key)}
      </button>
      {isExample(key) && <small className={styles.example}> {MEASURED.example}</small>}
    </>
  );
  const tube = (n: 1 | 2): ReactNode => {
    const [is, by, reads] = MEASURED.tube(n);
    return (
      <Sentence>
        {is} {value(`od${n}`)} {by} {value(`wall${n}`)} {reads} {value(`reading${n}`)}
      </Sentence>
    );
  };

  return (
    <>
      <section className={classes(parts.panel, styles.in)} aria-label={MEASURED.label}>
        <BetweenPicture readings={readings} write={write} />
        <p className={styles.how}>
          {MEASURED.how} <strong>{MEASURED.angle}</strong> {MEASURED.square}
        </p>
        <div className={parts.sentences}>
          {tube(1)}
          {tube(2)}
          <Sentence>
            {MEASURED.string} {value("distance")}
          </Sentence>
          <Pair
            label={MEASURED.tape}
            value={readings.tape}
            options={[
              ["over", MEASURED.over],
              ["between", MEASURED.inside],
            ]}
            onPick={(tape) => onSet({ tape })}
          />
          <Sentence>
            {MEASURED.bar[0]} {value("od")} {MEASURED.bar[1]} {value("wall")}
          </Sentence>
          <Sentence>
            {MEASURED.twist[0]} {value("twist")} {MEASURED.twist[1]}
          </Sentence>
          <Sentence>
            {MEASURED.finder} {value("trust")}
          </Sentence>
          <Pair
            label={MEASURED.units}
            value={readings.show.length}
            options={[
              ["mm", MEASURED.unit.mm],
              ["in", MEASURED.unit.in],
            ]}
            onPick={(length) => onSet({ show: { ...readings.show, length } })}
          />
        </div>
        {[...LENGTHS, ...ANGLES].some(isExample) && (
          <div className={parts.sentence}>
            <p>{MEASURED.examples}</p>
            <button
              type="button"
              onClick={() => onSet(Object.fromEntries([...LENGTHS, ...ANGLES].map((k) => [k, readings[k]])))}
            >
              {MEASURED.confirm}
            </button>
          </div>
        )}
        {!made.ok && (
          <p className={classes(parts.notice, parts.wrong)} role="alert">
            {MEASURED.named(nameOf(made.field), made.why)}
          </p>
        )}
      </section>
      {asked !== undefined && (
        <Ask
          key={asked}
          asked={asked}
          name={nameOf(asked)}
          readings={readings}
          write={write}
          onClose={() => setAsked(undefined)}
          onSet={(change) => {
            setAsked(undefined);
            onSet(change);
          }}
        />
      )}
    </>
  );
}

const Sentence = ({ children }: { readonly children: ReactNode }) => (
  <div className={parts.sentence}>
    <p>{children}</p>
  </div>
);

function Pair<T extends string>(props: {
  readonly label: string;
  readonly value: T;
  readonly options: readonly (readonly [T, string])[];
  readonly onPick: (value: T) => void;
}) {
  return (
    <div className={parts.pair} role="group" aria-label={props.label}>
      {props.options.map(([id, says]) => (
        <button key={id} type="button" aria-pressed={id === props.value} onClick={() => props.onPick(id)}>
          {says}
        </button>
      ))}
    </div>
  );
}

/** The keypad for one measure. */
function Ask(props: {
  readonly asked: Length | Angle;
  readonly name: string;
  readonly readings: TwoTubes;
  readonly write: Write;
  readonly onSet: (change: Partial<TwoTubes>) => void;
  readonly onClose: () => void;
}) {
  const { asked, readings, write, onSet, onClose } = props;
  if (isAngle(asked))
    return (
      <NumberPad
        title={props.name}
        value={readings[asked]}
        least={asked === "trust" ? 0 : LEAST_READING}
        most={asked === "trust" ? 10 : asked === "twist" ? 180 : MOST_READING}
        {...(asked === "twist" ? { sides: MEASURED.ways } : {})}
        onClose={onClose}
        onSet={(value) => onSet({ [asked]: value })}
      />
    );
  return (
    <LengthPad
      title={props.name}
      value={readings[asked]}
      unit={readings.show.length}
      write={isWall(asked) ? write.fine : write.length}
      onClose={onClose}
      onSet={(value) => value !== undefined && onSet({ [asked]: value })}
    />
  );
}

const isAngle = (key: Length | Angle): key is Angle => (ANGLES as readonly string[]).includes(key);

function asTyped(value: Json, write: (mm: number) => string): string {
  if (typeof value === "string") return retyped(value, "mm").text;
  return write(mmOf(value) ?? 0);
}
