import { Ajv2020 } from "ajv/dist/2020.js";
import { describe, expect, it } from "vitest";
import * as z from "zod";
import demo from "../../../demo/sandling.json";
import trial from "../../../tests/corpus/trial-frame.json";
import { jobSchemaJson, readJob } from "./index.ts";

/** Ajv 8, a JSON Schema validator that we did not write, against the draft that the schema names. */
const valid = new Ajv2020({ strict: false, allErrors: true, formats: { date: true } }).compile(
  jobSchemaJson(),
);
const accepts = (document: unknown): boolean => valid(structuredClone(document));

/** The trial frame with another value at a path; undefined takes the key out. */
function changed(path: string, value: unknown): unknown {
  const document: unknown = structuredClone(trial);
  const steps = path.split(" ");
  const home = steps.slice(0, -1).reduce((at, step) => (at as Record<string, unknown>)[step], document);
  const last = steps.at(-1)!;
  if (value === undefined) Reflect.deleteProperty(home as object, last);
  else (home as Record<string, unknown>)[last] = value;
  return document;
}

describe("the published schema", () => {
  it("is of draft 2020-12 and has a title", () => {
    expect(jobSchemaJson()).toMatchObject({
      $schema: "https://json-schema.org/draft/2020-12/schema",
      title: "Tubewright job",
    });
  });

  it("accepts the demo and the trial frame", () => {
    expect(accepts(demo)).toBe(true);
    expect(accepts(trial)).toBe(true);
  });

  const good: readonly (readonly [string, string, unknown])[] = [
    ["lengths as text", "tubes main od", "1 3/4 in"],
    ["a place in text", "bars hoop path 1", ["1 in", "2", 3]],
    ["an unknown point", "points hip", {}],
    ["a target of a target", "bars cross path 0", { on: "hoop", toward: { on: "hoop", along: 3 } }],
    ["no bars", "bars", undefined],
    [
      "a tape from tube to tube",
      "readings",
      [
        {
          tape: [
            { bar: "hoop", along: 9 },
            { bar: "hoop", bend: 1 },
          ],
          length: "1 m",
        },
      ],
    ],
    ["the shell's lean", "readings", [{ lean: "along", angle: -0.4, sd: 0.1 }]],
  ];
  it.each(good)("accepts %s, as readJob does", (_, path, value) => {
    expect(accepts(changed(path, value))).toBe(true);
    expect(readJob(changed(path, value))).toMatchObject({ ok: true });
  });

  const bad: readonly (readonly [string, string, unknown])[] = [
    ["no format", "format", undefined],
    ["another format", "format", "drawing"],
    ["an older version, which only readJob brings up", "version", 0],
    ["a later version", "version", 3],
    ["an unknown key", "tubess", {}],
    ["an unknown key of a tube", "tubes main diameter", 3],
    ["a length that is none", "tubes main od", true],
    ["a size of 0", "tubes main stick", 0],
    ["a diameter beyond all tubes", "tubes main od", 1001],
    ["a length beyond all cars", "bars hoop path 1 0", 1e7],
    ["a place of two", "bars hoop path 1", [1, 2]],
    ["a place of four", "bars hoop path 1", [1, 2, 3, 4]],
    ["an empty node", "bars hoop path 1", {}],
    ["a path of one node", "bars hoop path", [[1, 2, 3]]],
    ["a step as target", "bars cross path 0", { on: "hoop", toward: { step: [1, 2, 3] } }],
    ["a path beside mirrorOf", "bars stay-r path", []],
    ["a bar of nothing", "bars x", { label: "x" }],
    ["an angle in text", "dies d45 maxAngle", "180"],
    ["near somewhere else", "bars cross path 0 near", "middle"],
    ["bars in a list", "bars", []],
    ["a third of an inch on show", "show fraction", 3],
  ];
  it.each(bad)("refuses %s, as readJob does", (_, path, value) => {
    expect(accepts(changed(path, value))).toBe(false);
    expect(readJob(changed(path, value))).toMatchObject({ ok: false });
  });
});

describe("a page that forbids code made from text", () => {
  it("is respected: zod makes no functions of text", () => {
    expect(z.config().jitless).toBe(true);
    const { Function: kept } = globalThis;
    let asked = 0;
    globalThis.Function = new Proxy(kept, {
      construct: () => {
        asked++;
        throw new EvalError("forbidden");
      },
    });
    try {
      expect(readJob(trial).ok).toBe(true);
    } finally {
      globalThis.Function = kept;
    }
    expect(asked).toBe(0);
  });
});
