import { expect, it } from "vitest";
import { fore, height, lean, level, out, plumb, slope, tape } from "../../../tests/support/survey.ts";
import { IDS, written } from "../../words/index.ts";
import { writerFor } from "../units/index.ts";
import { advicePhrase, readingPhrase } from "./index.ts";

const say = (phrase: ReturnType<typeof readingPhrase>): string =>
  written(phrase, writerFor({ length: "mm", fraction: 16 }), IDS);

it("every reading has words", () => {
  const corner = { kind: "corner", bar: "hoop", bend: 2 } as const;
  const tube = { kind: "tube", bar: "stay", along: 90, over: "outside", bead: 0 } as const;
  const all = [
    tape("floor-1", "post", 900),
    tape(corner, tube, 900),
    height("post", 1),
    out("post", 1),
    fore("post", 1),
    level("post", "sill"),
    plumb("post", "sill"),
    slope("post", "sill", 3),
    lean("across", 1),
  ];
  expect(all.map((r) => say(readingPhrase(r)))).toEqual([
    "the tape from floor-1 to post",
    "the tape from bend 2 of hoop to stay",
    "the height of post",
    "the measure out to post",
    "the measure forward to post",
    "the level from post to sill",
    "the plumb from post to sill",
    "the slope from post to sill",
    "the shell's lean across",
  ]);
});

it("every reading to take has words", () => {
  expect(say(advicePhrase({ kind: "tape", points: ["floor-1", "post"] }))).toBe(
    "a tape from floor-1 to post",
  );
  expect(
    (["height", "out", "fore"] as const).map((kind) => say(advicePhrase({ kind, point: "post" }))),
  ).toEqual(["the height of post", "the measure out to post", "the measure forward to post"]);
});
