import { describe, expect, it } from "vitest";
import { readJob } from "../../core/job/index.ts";
import { asRead, isPlain, KINDS, sayHeld } from "../../words/index.ts";
import { writeIn } from "../kit/write.ts";
import { addReading, type JobDocument, type Json } from "../model/document/index.ts";
import { frame } from "../model/document/testing.ts";
import {
  carReading,
  type Draft,
  draftOf,
  type EndDraft,
  emptyDraft,
  endsOf,
  howReadOf,
  missingIn,
  tackedReading,
  withPoint,
} from "./draft.ts";
import { asTyped, expectedOfDraft, tackSizeOf } from "./expected.ts";
import { draftFrom, readName, sayReading } from "./say-reading.ts";

const point = (id: string): EndDraft => ({ is: "point", id });
const tube: EndDraft = { is: "tube", bar: "hoop", along: "-15 3/4 in" };
const document: JobDocument = { ...frame(), points: { p: {}, q: {}, shoulder: [-150, 0, 620] } };

/** One whole reading of each kind, and two ways with a tape more. */
const WHOLE: readonly Draft[] = [
  ...KINDS.map((kind): Draft => {
    const many = endsOf(kind);
    const ends: Draft["ends"] = [many > 0 ? point("p") : undefined, many > 1 ? point("q") : undefined];
    return {
      ...emptyDraft(kind),
      ends,
      ...(isPlain(kind) ? {} : { value: kind.startsWith("lean") ? -0.5 : 12.5 }),
    };
  }),
  { ...emptyDraft("tape", { over: "inside" }), ends: [point("p"), tube], value: "31 1/2 in", bead: 3, sd: 2 },
  { ...emptyDraft("tape", { over: "outside", mark: "4 in" }), ends: [point("p"), point("q")], value: 900 },
  { ...emptyDraft("tape"), ends: [{ is: "corner", bar: "hoop", bend: 2 }, point("q")], value: 900 },
];

describe("a reading put together by the pad", () => {
  it.each(WHOLE.map((d) => [sayReading(d, document), d] as const))(
    "passes as a job's reading: %s",
    (_, draft) => {
      const reading = carReading(draft)!;
      const edit = addReading(["readings"], reading, "read").edit(document);
      const read = readJob(edit.ok ? edit.document : expect.fail());
      expect(read.ok ? [] : read.problems).toEqual([]);
      // and is the same draft again when it is read out of the job
      const again = draftOf(reading)!;
      expect(carReading(again)).toEqual(reading);
      expect(sayReading(again, document)).toBe(sayReading(draft, document));
    },
  );

  it("takes no tape that reads less than the mark that was held, and says what was held", () => {
    const draft: Draft = { ...emptyDraft("tape"), ends: [point("p"), point("q")], mark: 100, value: "3 in" };
    expect([missingIn(draft), carReading(draft)]).toEqual(["too short", undefined]);
    const good = { ...draft, value: "5 in" };
    expect(carReading(good)).toEqual({ tape: ["p", "q"], length: "5 in", mark: 100 });
    expect(sayReading(good, document)).toBe("Tape, P to Q, held at its 100 mm mark");
  });

  it("should read what the points and the mark say, as it would be typed in either unit", () => {
    const points = new Map([
      ["p", [0, 0, 0]],
      ["q", [300, -400, 0]],
    ] as const);
    const known = { points, bars: new Map() };
    const draft: Draft = { ...emptyDraft("tape"), ends: [point("p"), point("q")], mark: "1 in" };
    expect(expectedOfDraft(draft, known)).toBeCloseTo(525.4, 9);
    const out: Draft = { ...emptyDraft("out"), ends: [point("q"), undefined] };
    const is = expectedOfDraft(out, known)!;
    expect(asTyped(is, "out", writeIn({ length: "mm", fraction: 16 }))).toBe(-400);
    expect(asTyped(is, "out", writeIn({ length: "in", fraction: 16 }))).toBe("-15 3/4 in");
    expect(expectedOfDraft({ ...draft, ends: [point("p"), point("shoulder")] }, known)).toBeUndefined();
  });

  it("of a tacked bar keeps the mark, too, and is asked for with it", () => {
    const draft: Draft = { ...emptyDraft("tape"), ends: [point("p"), tube], mark: 50, value: 900 };
    expect(tackedReading(draft)).toMatchObject({ what: "tape", size: 900, mark: 50 });
    expect(tackSizeOf(draft)).toMatchObject({ what: "tape", from: "p", mark: 50 });
  });

  it("asks for what is missing, in order, and is none before", () => {
    let draft = emptyDraft("tape");
    expect([missingIn(draft), carReading(draft)]).toEqual(["from", undefined]);
    draft = { ...draft, ends: [point("p"), undefined] };
    expect(missingIn(draft)).toBe("to");
    draft = { ...draft, ends: [point("p"), point("p")] };
    expect(missingIn(draft)).toBe("same point");
    draft = { ...draft, ends: [point("p"), point("q")] };
    expect(missingIn(draft)).toBe("reading");
    expect(missingIn({ ...emptyDraft("level"), ends: [point("p"), point("q")] })).toBeUndefined();
    expect(missingIn({ ...emptyDraft("lean along"), value: 0.3 })).toBeUndefined();
  });

  it("of a tacked bar it names a spot on a bar, and passes as the job keeps it", () => {
    const height: Draft = { ...emptyDraft("height"), ends: [tube, undefined], value: 905.5 };
    const reading = tackedReading(height)!;
    expect(reading).toEqual({
      what: "height",
      of: { bar: "hoop", along: "-15 3/4 in" },
      over: "outside",
      size: 905.5,
    });
    expect(draftOf(reading)).toEqual(height);
    expect(tackedReading({ ...height, ends: [point("p"), undefined] })).toBeUndefined();
    const edit = addReading(["made", "hoop", "tacked"], reading, "read").edit(document);
    expect(edit.ok && readJob(edit.document)).toMatchObject({ ok: true });
  });

  it("is said as it was read, with the unit that was typed", () => {
    const sizes: readonly (readonly [Json, Parameters<typeof asRead>[1], string])[] = [
      [1234, "tape", "1234 mm"],
      ["12 5/16 in", "tape", "12 5/16 in"],
      ["-3/4 in", "fore", "3/4 in back"],
      [-596, "out", "596 mm right"],
      ["23 in", "out", "23 in left"],
      [0, "height", "0 mm"],
      [-12, "height", "12 mm below it"],
      [-0.4, "lean along", "0.4°, rear higher"],
      [12.5, "slope", "12.5°, second is higher"],
      [0, "slope", "0°"],
    ];
    for (const [value, kind, says] of sizes) expect(asRead(value, kind)).toBe(says);
    expect(sayHeld("height", ["p", ""], "inside")).toBe("Height of p, underside");
    expect(readName({ ...emptyDraft("tape"), ends: [point("p"), tube], value: 900 }, document)).toBe(
      "read Tape, P to Main hoop, 15 3/4 in from end B, far side: 900 mm",
    );
  });

  it("is ready for what was advised, and knows how it lies", () => {
    const next = draftFrom({ kind: "tape", points: ["p", "q"] });
    expect([next.ends, missingIn(next)]).toEqual([[point("p"), point("q")], "reading"]);
    expect(draftFrom({ kind: "out", point: "p" })).toMatchObject({
      kind: "out",
      ends: [point("p"), undefined],
    });
    expect(howReadOf(WHOLE.at(-3)!)).toEqual({ kind: "tape", ends: ["point", "inside"], bead: true });
    expect(howReadOf(WHOLE.at(-1)!)).toEqual({ kind: "tape", ends: ["corner", "point"], bead: false });
    expect(howReadOf({ ...emptyDraft("height", { over: "centre" }), ends: [tube, undefined] })).toEqual({
      kind: "height",
      at: "centre",
    });
  });
});

describe("a point tapped in the picture", () => {
  const ends = (draft: Draft) => draft.ends.map((e) => (e?.is === "point" ? e.id : e?.is));

  it("is the first end that is missing, then the last one anew", () => {
    const one = withPoint(emptyDraft("tape"), "a");
    const two = withPoint(one, "b");
    expect([one, two, withPoint(two, "c")].map(ends)).toEqual([
      ["a", undefined],
      ["a", "b"],
      ["a", "c"],
    ]);
    expect(ends(withPoint(withPoint(emptyDraft("height"), "a"), "b"))).toEqual(["b", undefined]);
  });

  it("goes to the end that waits for it", () => {
    const draft = withPoint(withPoint(emptyDraft("plumb"), "a"), "b");
    expect(ends(withPoint(draft, "c", 0))).toEqual(["c", "b"]);
  });

  it("changes nothing where an end is held on it already, or where there is no end", () => {
    const draft = withPoint(emptyDraft("tape"), "a");
    expect(withPoint(draft, "a")).toBe(draft);
    const lean = emptyDraft("lean along");
    expect(withPoint(lean, "a")).toBe(lean);
  });
});
