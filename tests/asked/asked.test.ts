/**
 * Everything that the job file holds has its question in the app: the schema is walked, and a field that no page writes
 * fails. What pages write is read from what they themselves show and run: the sheets' fields and what may be added, the
 * sentences of a bar and its ways of placing, the readings that the pad puts together, the steps that are marked. What is
 * new in the schema gets its question in one of these, or a room of its own with a file here that asks it.
 */
import { describe, expect, it } from "vitest";
import { newJobOf } from "../../src/app/model/document/index.ts";
import { frame } from "../../src/app/model/document/testing.ts";
import type { Field } from "../../src/app/things/field.ts";
import { jobSchemaJson } from "../../src/core/job/index.ts";
import { askBar, askWholes } from "./of-bars.ts";
import { FRAME, makeAll } from "./of-made.ts";
import { readCar, setUpCar } from "./of-readings.ts";
import { askBarSheets, askThings } from "./of-things.ts";
import { type JobDocument, Steps, unasked, type Written } from "./steps.ts";
import { fieldsIn } from "./walk.ts";

/** A job in which a place is written in the longer way: a page edits it as it is written. */
function asWritten(): JobDocument {
  const job = frame();
  const written = {
    tube: "light",
    path: [{ at: [0, 200, 100] }, [0, 200, 300], { on: "hoop", toward: { at: [0, 600, 500] } }],
  };
  return {
    ...job,
    points: { "a-point": [10, 20, 30] },
    plates: { ...(job.plates as object), "a-plate": { at: [0, 0, 0], normal: [0, 0, 1] } },
    bars: { ...(job.bars as object), written },
  } as JobDocument;
}

const points = { "a-point": [10, 20, 30], "b-point": {} };

/** Every sheet of the job, from an empty job on, but for the fields that are left out. */
function sheets(less?: (field: Field) => boolean): Steps {
  const steps = new Steps({ format: "tubewright job", version: 2 });
  steps.take(newJobOf("Sheets", { length: "mm", fraction: 16 }));
  askThings(steps, less);
  const bars = new Steps(asWritten());
  askBarSheets(bars, less);
  for (const [key, path] of bars.written) steps.written.set(key, path);
  steps.refused.push(...bars.refused);
  return steps;
}

/** All else that pages write. */
function others(): readonly Steps[] {
  const bars = new Steps(asWritten());
  askBar(bars, "cross", { host: "hoop", beside: "stay-l" });
  askBar(bars, "written", { host: "hoop", beside: "stay-l" });
  askWholes(bars, "cross", "hoop");
  const read = new Steps({ ...FRAME, points });
  readCar(read, "hoop");
  setUpCar(read);
  const made = new Steps({ ...FRAME, points });
  makeAll(made);
  return [bars, read, made];
}

describe("every field of the job file", () => {
  const fields = fieldsIn(jobSchemaJson());
  const [first, ...rest] = [sheets(), ...others()];
  const of = (steps: readonly Steps[]): readonly Written[] => steps.flatMap((s) => [...s.written.values()]);

  it("is one that a page sets", () => expect(unasked(fields, of([first, ...rest]))).toEqual([]));

  it("and every question takes an answer", () => {
    expect([first, ...rest].flatMap(({ refused }) => refused)).toEqual([]);
  });

  it.each([
    ["bender.height", "bender.height"],
    ["notcher.saws", "notcher.saws.*"],
    ["shop.errors.tape", "shop.errors.tape"],
    ["driver.helmet", "driver.helmet.*"],
  ])("is missed where a page leaves it out: %s", (path, field) => {
    const left = sheets((f) => f.path.filter((k) => typeof k === "string").join(".") === path);
    expect(unasked([field], of([left]))).toEqual([field]);
  });
});
