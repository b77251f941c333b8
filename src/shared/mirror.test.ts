import fc from "fast-check";
import { describe, expect, it } from "vitest";
import * as Y from "yjs";
import { demo, frame } from "../app/model/document/testing.ts";
import { at, isObject, type JobDocument, type Json, jobText, share } from "./json.ts";
import { fromJson, toJson, write } from "./mirror.ts";

const text = (value: Json) => JSON.stringify(value);

/** Both documents get what the other has, as two tabs do. */
function meet(a: Y.Doc, b: Y.Doc): void {
  const [forB, forA] = [Y.encodeStateAsUpdate(a), Y.encodeStateAsUpdate(b)];
  Y.applyUpdate(b, forB);
  Y.applyUpdate(a, forA);
}

/** A second document that knows what the first does. */
function copyOf(doc: Y.Doc): Y.Doc {
  const copy = new Y.Doc();
  Y.applyUpdate(copy, Y.encodeStateAsUpdate(doc));
  return copy;
}

const head = { format: "tubewright job", version: 2 } as const;

describe("a job in a shared document", () => {
  it.each([
    ["the demo", demo()],
    ["the trial frame", frame()],
    ["next to nothing", head],
    ["empty parts that the file lists", { ...head, points: {}, rack: [], body: { skin: {} }, bars: {} }],
    [
      "lengths as typed",
      { ...head, tubes: { "1.75": { wall: ".095 in", od: "1-3/4" } }, points: { p: [1, "2 mm", -0.1] } },
    ],
    [
      "names of the language",
      { bars: { constructor: { path: [] }, toString: {} }, ...head, tubes: { valueOf: {} } },
    ],
  ] as readonly (readonly [string, JobDocument])[])(
    "comes out to the letter, keys in order: %s",
    (_, job) => {
      expect(jobText(toJson(fromJson(job)))).toBe(jobText(job));
      expect(jobText(toJson(copyOf(fromJson(job))))).toBe(jobText(job));
    },
  );

  const name = fc.constantFrom("a", "b", "c", "constructor", "7");
  const leaf: fc.Arbitrary<Json> = fc.oneof(
    fc.integer({ min: -1_000_000, max: 1_000_000 }).map((i) => i / 1000),
    fc.constantFrom("12 5/16 in", "left", true, null),
  );
  const whole = fc.oneof(leaf, fc.array(leaf, { maxLength: 3 }), fc.dictionary(name, leaf, { maxKeys: 3 }));
  const things = fc.dictionary(name, fc.dictionary(name, whole, { maxKeys: 4 }), { maxKeys: 4 });
  const job: fc.Arbitrary<JobDocument> = fc.record(
    {
      bars: things,
      tubes: things,
      points: fc.dictionary(name, whole, { maxKeys: 4 }),
      show: fc.dictionary(name, leaf, { maxKeys: 3 }),
      readings: fc.array(whole, { maxLength: 5 }),
      shop: fc.record({ errors: fc.dictionary(name, leaf, { maxKeys: 2 }), gap: leaf }, { requiredKeys: [] }),
      body: fc.record({ lines: fc.dictionary(name, whole, { maxKeys: 3 }) }, { requiredKeys: [] }),
      name: leaf,
    },
    { requiredKeys: [] },
  );

  it("says after any run of edits just what the last one said (seed 20251)", () => {
    fc.assert(
      fc.property(fc.array(job, { minLength: 2, maxLength: 6 }), (jobs) => {
        const doc = fromJson(jobs[0]!);
        for (const next of jobs.slice(1)) {
          write(doc, next, null);
          expect(text(toJson(doc))).toBe(text(next));
        }
        expect(text(toJson(copyOf(doc)))).toBe(text(jobs.at(-1)!));
      }),
      { seed: 20251, numRuns: 300 },
    );
  });

  it("ends alike on both sides whatever both edit at once (seed 20252)", () => {
    fc.assert(
      fc.property(job, job, job, (start, left, right) => {
        const a = fromJson(start);
        const b = copyOf(a);
        write(a, left, null);
        write(b, right, null);
        meet(a, b);
        expect(text(toJson(a))).toBe(text(toJson(b)));
      }),
      { seed: 20252, numRuns: 300 },
    );
  });

  it("touches only what differs", () => {
    const doc = fromJson(demo());
    let bytes = 0;
    doc.on("update", (update: Uint8Array) => {
      bytes += update.length;
    });
    write(doc, demo(), null);
    expect(bytes).toBe(0);
    const moved = { ...demo(), name: "Other" };
    write(doc, moved, null);
    expect(bytes).toBeGreaterThan(0);
    expect(bytes).toBeLessThan(100);
  });
});

describe("two edits at once", () => {
  function both(
    start: JobDocument,
    left: (d: JobDocument) => JobDocument,
    right: (d: JobDocument) => JobDocument,
  ) {
    const a = fromJson(start);
    const b = copyOf(a);
    write(a, left(start), null);
    write(b, right(start), null);
    meet(a, b);
    expect(toJson(a)).toEqual(toJson(b));
    return JSON.parse(jobText(toJson(a)));
  }
  const setBar = (id: string, keys: object) => (d: JobDocument) =>
    ({
      ...d,
      bars: { ...(d.bars as object), [id]: { ...(at(d, ["bars", id]) as object), ...keys } },
    }) as JobDocument;

  it("of different bars both live", () => {
    const merged = both(frame(), setBar("hoop", { label: "H" }), setBar("cross", { label: "C" }));
    expect([merged.bars.hoop.label, merged.bars.cross.label]).toEqual(["H", "C"]);
  });

  it("of different keys of one bar both live", () => {
    const merged = both(frame(), setBar("hoop", { label: "H" }), setBar("hoop", { fromEnd: "B" }));
    expect(merged.bars.hoop).toMatchObject({ label: "H", fromEnd: "B" });
  });

  it("that both add a bar keep both, and both keep their order", () => {
    const merged = both(frame(), setBar("x", { mirrorOf: "hoop" }), setBar("y", { mirrorOf: "hoop" }));
    const was = Object.keys(frame().bars as object);
    expect(Object.keys(merged.bars).slice(0, was.length)).toEqual(was);
    expect(Object.keys(merged.bars).slice(was.length).sort()).toEqual(["x", "y"]);
  });

  it("that both begin the same part keep what both put in it", () => {
    const merged = both(
      head,
      (d) => ({ ...d, points: { a: [1, 2, 3] }, readings: [{ n: 1 }] }),
      (d) => ({ ...d, points: { b: { at: [4, 5, 6] } }, readings: [{ n: 2 }] }),
    );
    expect(merged.points).toEqual({ a: [1, 2, 3], b: { at: [4, 5, 6] } });
    expect(merged.readings.map((r: { n: number }) => r.n).sort()).toEqual([1, 2]);
  });

  it("of one path are not mixed: one whole path wins", () => {
    const paths = [
      [
        [0, 0, 0],
        [1, 1, 1],
        [2, 2, 2],
      ],
      [
        [0, 0, 0],
        [9, 9, 9],
      ],
    ];
    const merged = both(frame(), setBar("hoop", { path: paths[0] }), setBar("hoop", { path: paths[1] }));
    expect(paths).toContainEqual(merged.bars.hoop.path);
  });
});

describe("sharing", () => {
  it("keeps the very objects that did not change", () => {
    const [before, after] = [demo(), demo()];
    expect(share(before, after)).toBe(before);
    const edited: JobDocument = { ...demo(), name: "x" };
    const shared = share(before, edited);
    expect(shared).toEqual(edited);
    expect(shared.bars).toBe(before.bars);
    expect(isObject(shared.bars) && shared).not.toBe(before);
  });

  it("sees a change of the order of keys", () => {
    expect(Object.keys(share({ a: 1, b: 2 }, { b: 2, a: 1 }))).toEqual(["b", "a"]);
  });
});
