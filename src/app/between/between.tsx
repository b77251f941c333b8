import { useEffect, useMemo, useState, useSyncExternalStore } from "react";
import { CAUTIONS } from "../../cards/cautions.ts";
import { readJob } from "../../core/job/index.ts";
import { deg } from "../../core/numeric/index.ts";
import { type Computer, computerOn, workerEngine } from "../compute/index.ts";
import { isObject, type Json } from "../document/index.ts";
import { recall, remember } from "../shell/device.ts";
import { goToPage } from "../shell/route.ts";
import { HandOut } from "../stations/hand-out.tsx";
import { notcherSteps, standing } from "../stations/notcher-steps.ts";
import { Answer } from "../stations/questions.tsx";
import { mmOf, retyped } from "../stations/typed.ts";
import { useNotches } from "../stations/use-notch.ts";
import { writeIn } from "../stations/write.ts";
import { LengthPad, NumberPad } from "../ui/keypad.tsx";
import { View } from "../ui/view.tsx";
import { useActions } from "../use-app.ts";
import { BetweenPicture } from "./between-picture.tsx";
import { jobOfReadings, LEAST_READING, MOST_READING, NEW_BAR, type TwoTubes } from "./readings.ts";

const START: TwoTubes = {
  od1: 45,
  wall1: 2.5,
  od2: 45,
  wall2: 2.5,
  od: 40,
  wall: 2,
  distance: 1180,
  tape: "over",
  reading1: 78,
  reading2: 96,
  twist: 0,
  trust: 1,
  show: { length: "mm", fraction: 16 },
};

function recalled(): TwoTubes {
  try {
    const kept: Json = JSON.parse(recall("between") ?? "null");
    if (isObject(kept)) return { ...START, ...kept } as TwoTubes;
  } catch {
    // what cannot be read is begun anew
  }
  return START;
}

/** A computer of its own, so that the open job is left alone. */
function useOwnComputer(): Computer | undefined {
  const [computer, setComputer] = useState<Computer>();
  useEffect(() => {
    const made = computerOn(
      workerEngine(() => {
        void Promise.all([import("../compute/session.ts"), import("../fonts.ts")]).then(
          ([{ sessionWith }, { loadFonts }]) => made.replace(sessionWith(loadFonts)),
        );
      }),
    );
    setComputer(made);
    return () => made.close();
  }, []);
  return computer;
}

/** First five minutes: two tubes that stand already, and the bar between them. */
export default function Between() {
  const computer = useOwnComputer();
  return computer ? <Measured computer={computer} /> : <p className="wait">One moment…</p>;
}

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

function Measured({ computer }: { readonly computer: Computer }) {
  const act = useActions();
  const [readings, setReadings] = useState<TwoTubes>(recalled);
  const [asked, setAsked] = useState<Asked>();
  const write = useMemo(() => writeIn(readings.show), [readings.show]);
  const made = useMemo(() => jobOfReadings(readings), [readings]);
  const results = useSyncExternalStore(computer.subscribe, computer.results);
  useEffect(() => {
    if (made.ok) computer.compute(made.document);
  }, [computer, made]);
  const job = useMemo(() => {
    const read = made.ok ? readJob(made.document) : undefined;
    return read?.ok ? read.job : undefined;
  }, [made]);
  const bar = results.bars.get(NEW_BAR);
  const notches = useNotches(computer, results, bar);
  const isFresh = made.ok && results.document === made.document;

  function set(change: Partial<TwoTubes>): void {
    setAsked(undefined);
    setReadings((was) => {
      const next = { ...was, ...change };
      remember("between", JSON.stringify(next));
      return next;
    });
  }

  const length = (key: Extract<Asked, { kind: "length" }>["key"], label: string) => (
    <button
      type="button"
      className="value"
      aria-label={`${label}: ${said(readings[key], write.length)}`}
      onClick={() => setAsked({ kind: "length", key, label })}
    >
      {said(readings[key], key.startsWith("wall") ? write.fine : write.length)}
    </button>
  );
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
    <div className="between">
      <section className="panel between-in" aria-label="What you measured">
        <BetweenPicture readings={readings} write={write} />
        <p className="how">
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
      <section
        className="between-out"
        aria-label="The bar between them"
        aria-busy={!isFresh}
        data-stale={!made.ok}
      >
        {bar && notches ? (
          <>
            <div className="questions">
              <Answer
                question="How long?"
                figure={write.length(bar.bend.blank)}
                says="long point to long point, before what you leave over"
              >
                Middle to middle of the tubes {made.ok && write.length(made.apart)}; the notches take{" "}
                {write.length(bar.leastBack.A)} at tube 1 and {write.length(bar.leastBack.B)} at tube 2 off
                that.
              </Answer>
              <Answer
                question="Leave over"
                figure={write.fine((notches.A?.steps?.leave ?? 0) + (notches.B?.steps?.leave ?? 0))}
                says={`${write.fine(notches.A?.steps?.leave ?? 0)} at tube 1, ${write.fine(notches.B?.steps?.leave ?? 0)} at tube 2`}
              >
                With an angle finder good to ± {readings.trust}° the first cut may have to be cut again; this
                much more tube lets the final cut clean it up. Saw to{" "}
                {write.length(
                  bar.bend.blank + (notches.A?.steps?.leave ?? 0) + (notches.B?.steps?.leave ?? 0),
                )}
                .
              </Answer>
            </div>
            <p className="together">{standing(bar, notches.A, notches.B, write)}</p>
            <div className="two-ends">
              {(["A", "B"] as const).map((end) => {
                const notch = notches[end];
                const steps = notcherSteps(bar, end, notch, { gap: 1 }, write, (id) =>
                  id === "tube-1" ? "tube 1" : id === "tube-2" ? "tube 2" : id,
                );
                const cuts = steps.filter((s) => s.kind === "cut");
                return (
                  <section key={end} className="one-end" aria-label={`End ${end}`}>
                    <h2>
                      End {end}, on tube {end === "A" ? 1 : 2}
                    </h2>
                    <p className="end-figure">
                      {notch?.saw ? write.angle(deg(notch.saw.cut.notch)) : "wrap"}
                      <small>
                        {" "}
                        off square{notch?.saw && `, hole saw ${write.size(2 * notch.saw.cut.radius)}`}
                      </small>
                    </p>
                    <ul>
                      {steps
                        .filter((s) => s.kind === "wrap" || s.kind === "turn" || s.kind === "offset")
                        .map((s) => (
                          <li key={s.key}>
                            {s.figure && (
                              <strong>
                                {s.does.replace("Turn the tube: ", "")} {s.figure}:{" "}
                              </strong>
                            )}
                            {s.says.join(" ")}
                          </li>
                        ))}
                      {cuts.map((s) => (
                        <li key={s.key}>
                          <strong>
                            {s.does}: {s.figure}
                          </strong>{" "}
                          {s.says.join(" ").replace("Off square. Hole", "off square, hole")}
                        </li>
                      ))}
                    </ul>
                  </section>
                );
              })}
            </div>
          </>
        ) : (
          <p className="wait">
            {made.ok ? "Computing…" : "Put in what the line below the readings asks for."}
          </p>
        )}
        <View
          small
          results={results}
          job={job}
          inHand={NEW_BAR}
          onTap={() => {}}
          label="Both joints"
          unit={readings.show.length}
          write={write.length}
        />
        <HandOut
          computer={computer}
          cards={[
            {
              says: "Wrap, end A (tube 1)",
              name: "wrap-A",
              request: { card: "wrap", bar: NEW_BAR, end: "A" },
            },
            {
              says: "Wrap, end B (tube 2)",
              name: "wrap-B",
              request: { card: "wrap", bar: NEW_BAR, end: "B" },
            },
            { says: "Notcher card", name: "notcher-card", request: { card: "notcher", bar: NEW_BAR } },
          ]}
        />
        <div className="row">
          <button
            type="button"
            className="main"
            disabled={!made.ok}
            onClick={() => {
              if (made.ok)
                void act.newJob(made.document).then(() => {
                  act.take(NEW_BAR);
                  act.goTo("notcher");
                  goToPage("shop");
                });
            }}
          >
            Keep it as a bar of a job
          </button>
        </div>
        <p className="caution">{CAUTIONS.notcher}</p>
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
    </div>
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
