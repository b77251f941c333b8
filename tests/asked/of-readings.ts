import {
  addReading,
  at,
  type Json,
  type JsonObject,
  type JsonPath,
  strikeReading,
} from "../../src/app/model/document/index.ts";
import { bentDrafts, bentJson } from "../../src/app/readings/bent-sizes.ts";
import {
  carReading,
  type Draft,
  type EndDraft,
  emptyDraft,
  TACK_KINDS,
  tackedReading,
} from "../../src/app/readings/draft.ts";
import { gapReadAt, ticked } from "../../src/app/stations/car/set-up-edit.ts";
import { cutMade, gapRead, MARKS } from "../../src/app/stations/notcher/gaps.ts";
import { type DoorGap, readJob, SET_UP } from "../../src/core/job/index.ts";
import { doorGapPairs } from "../../src/core/survey/index.ts";
import { KINDS } from "../../src/words/index.ts";
import type { JobDocument, Steps } from "./steps.ts";

const point = (id: string): EndDraft => ({ is: "point", id });

/** What a tape's ends can be held on, pair by pair. */
const ends = (bar: string): readonly Draft["ends"][] => [
  [point("a-point"), point("b-point")],
  [point("a-point"), { is: "tube", bar, along: 40 }],
  [{ is: "tube", bar, along: 40 }, point("a-point")],
  [point("a-point"), { is: "corner", bar, bend: 1 }],
  [
    { is: "tube", bar, along: 40 },
    { is: "tube", bar, along: 400, over: "inside" },
  ],
];

/** Every kind of reading of the car, with whatever the pad adds to it; then one struck through. */
export function readCar(steps: Steps, bar: string): void {
  for (const kind of KINDS)
    for (const held of ends(bar)) {
      const draft = { ...emptyDraft(kind), ends: held, value: 12, sd: 0.7, bead: 1.5, mark: 5 };
      keep(steps, ["readings"], carReading(draft));
    }
}

/** The car made ready: every tick, and a door's gap before and after, read again. */
export function setUpCar(steps: Steps): void {
  for (const step of SET_UP) steps.run(ticked([], step), `tick ${step}`);
  for (const when of ["before", "after"] as const) {
    steps.run(gapReadAt(undefined, "left door, rear", when, 4), `gap ${when}`);
    const [pair] = doorGapPairs(doorGapsOf(steps.document));
    steps.run(gapReadAt(pair, "left door, rear", when, 4.5), `gap ${when}, again`);
  }
}

function doorGapsOf(document: JobDocument): readonly DoorGap[] {
  const read = readJob(document);
  return (read.ok && read.job.setUp?.doorGaps) || [];
}

/** Every reading of a bar: bent on the trestles, tacked in the car, gaps round both joints. */
export function readBar(steps: Steps, bar: string, other: string): void {
  for (const draft of bentDrafts([1, 2], "A")) keep(steps, ["made", bar, "bent"], bentJson(draft, 88));
  for (const kind of TACK_KINDS)
    for (const held of ends(other))
      keep(
        steps,
        ["made", bar, "tacked"],
        tackedReading({ ...emptyDraft(kind), ends: held, value: 88, mark: 5 }),
      );
  for (const end of ["A", "B"] as const) {
    const cut = { cut: 30, roll: 4, outboard: 2 };
    steps.run(cutMade(bar, end, cut, ""));
    for (const phi of MARKS) steps.run(gapRead(bar, end, cut, phi, 0.5, ""));
    steps.run(gapRead(bar, end, cut, 0, 0.75, ""), "gap read again");
  }
}

function keep(steps: Steps, list: JsonPath, reading: JsonObject | undefined): void {
  if (!reading || !steps.run(addReading(list, reading, ""))) return;
  const all = at(steps.document, list) as readonly Json[];
  steps.run(strikeReading(list, all.length - 1, true, "read again"), "strike");
}
