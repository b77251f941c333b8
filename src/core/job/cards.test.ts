import { describe, expect, it } from "vitest";
import { problemLine } from "../../words/index.ts";
import { readJob, referencesOf } from "./index.ts";

const issued = { n: 3, code: "4dce", on: "2026-11-29" };

/** A job of one bar whose cards are these. */
const jobWith = (cards: unknown) => ({
  format: "tubewright job",
  version: 2,
  tubes: { t: { od: 45, wall: 2.5 } },
  bars: {
    hoop: {
      tube: "t",
      path: [
        [0, 600, 0],
        [0, -600, 0],
      ],
    },
  },
  cards,
});

const linesOf = (cards: unknown): readonly string[] => {
  const read = readJob(jobWith(cards));
  return read.ok ? [] : read.problems.map(problemLine);
};

describe("cards that were issued", () => {
  it("come out as they stand, in a table without a prototype", () => {
    const read = readJob(jobWith({ hoop: issued }));
    expect(read.ok && read.job.cards).toEqual({ hoop: issued });
    expect(read.ok && read.job.cards?.constructor).toBeUndefined();
    const none = readJob(jobWith(undefined));
    expect(none.ok && "cards" in none.job).toBe(false);
  });

  it("belong to a bar: its name is theirs", () => {
    const names = referencesOf(jobWith({ hoop: issued })).filter((r) => r.path[0] === "cards");
    expect(names).toEqual([{ kind: "bar", name: "hoop", path: ["cards", "hoop"], isKey: true }]);
  });

  it.each([
    ["a bar that is none", { hop: issued }, 'cards.hop: no bar is called "hop" — did you mean "hoop"?'],
    ["no number", { hoop: { ...issued, n: undefined } }, "cards.hoop.n: missing"],
    ["a count from 0", { hoop: { ...issued, n: 0 } }, "cards.hoop.n: must be at least 1, not 0"],
    ["half a card", { hoop: { ...issued, n: 1.5 } }, "cards.hoop.n: must be a whole number, not 1.5"],
    [
      "a code that is no digest",
      { hoop: { ...issued, code: "4DCE" } },
      'cards.hoop.code: the code of a card is 4 to 64 of the digits 0 to 9 and a to f, not the text "4DCE"',
    ],
    [
      "a day that the calendar does not have",
      { hoop: { ...issued, on: "2026-02-29" } },
      'cards.hoop.on: a day is written year, month, day, such as "2026-11-29", not the text "2026-02-29"',
    ],
    [
      "a key of something else",
      { hoop: { ...issued, by: "me" } },
      "cards.hoop.by: unknown key; known here: n, code, on",
    ],
    ["a list", [issued], "cards: must be an object, not a list of 1"],
  ])("refuse %s", (_, cards, line) => {
    expect(linesOf(cards)).toEqual([line]);
  });

  it("take 29 February of a leap year, and a digest of any length in use", () => {
    expect(linesOf({ hoop: { n: 1, code: "a".repeat(64), on: "2028-02-29" } })).toEqual([]);
    expect(linesOf({ hoop: { n: 1, code: "a".repeat(65), on: "2028-02-29" } })).toHaveLength(1);
  });
});
