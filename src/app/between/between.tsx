import { useEffect, useMemo, useState, useSyncExternalStore } from "react";
import { readJob } from "../../core/job/index.ts";
import { BETWEEN, COMPUTING, ONE_MOMENT, PAPERS } from "../../words/index.ts";
import { View } from "../cage/index.ts";
import { Caution, HandOut, parts, recall, remember, useOwnComputer, writeIn } from "../kit/index.ts";
import type { Computer } from "../model/compute/index.ts";
import { isObject, type Json } from "../model/document/index.ts";
import { useNotches } from "../notch/index.ts";
import { Answers } from "./answers.tsx";
import styles from "./between.module.css";
import { KeepIt } from "./keep-it.tsx";
import { Measured } from "./measured.tsx";
import { jobOfReadings, NEW_BAR, type TwoTubes } from "./readings.ts";

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
    if (isObject(kept)) return setBy({ ...START, ...kept } as TwoTubes);
  } catch {
    // what cannot be read is begun from the start
  }
  return START;
}

/** What a page of before kept says nothing of what was set: what is not as at the start was. */
function setBy(kept: TwoTubes): TwoTubes {
  if (kept.set) return kept;
  const differs = (key: string): boolean => kept[key as keyof TwoTubes] !== START[key as keyof TwoTubes];
  return { ...kept, set: Object.keys(START).filter(differs) };
}

/** First five minutes: two tubes in place, and the bar between them. */
export function Between() {
  const computer = useOwnComputer();
  return computer ? <WithComputer computer={computer} /> : <p className={parts.wait}>{ONE_MOMENT}</p>;
}

function WithComputer({ computer }: { readonly computer: Computer }) {
  const [readings, setReadings] = useState<TwoTubes>(recalled);
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
    setReadings((was) => {
      const set = [...new Set([...(was.set ?? []), ...Object.keys(change)])];
      const next = { ...was, ...change, set };
      remember("between", JSON.stringify(next));
      return next;
    });
  }

  return (
    <div className={styles.between}>
      <Measured readings={readings} write={write} made={made} onSet={set} />
      <section className={styles.out} aria-label={BETWEEN.result} aria-busy={!isFresh}>
        {bar && notches ? (
          <Answers
            bar={bar}
            notches={notches}
            apart={made.ok ? made.apart : undefined}
            trust={readings.trust}
            write={write}
            isStale={!made.ok}
          />
        ) : (
          <p className={parts.wait}>{made.ok ? COMPUTING : BETWEEN.correct}</p>
        )}
        <div className={styles.view}>
          <View
            small
            computer={computer}
            results={results}
            job={job}
            inHand={NEW_BAR}
            onTap={() => {}}
            label={BETWEEN.picture}
            unit={readings.show.length}
            write={write.length}
          />
        </div>
        <HandOut
          computer={computer}
          cards={[
            {
              says: BETWEEN.wrap("A", 1),
              name: "wrap-A",
              request: { card: "wrap", bar: NEW_BAR, end: "A" },
            },
            {
              says: BETWEEN.wrap("B", 2),
              name: "wrap-B",
              request: { card: "wrap", bar: NEW_BAR, end: "B" },
            },
            { says: PAPERS.notcherCard, name: "notcher-card", request: { card: "notcher", bar: NEW_BAR } },
          ]}
        />
        <KeepIt made={made} />
      </section>
      <Caution steps={["saw", "notcher", "hot cutting"]} />
    </div>
  );
}
