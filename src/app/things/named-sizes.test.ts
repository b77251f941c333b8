import { expect, it } from "vitest";
import { confirmExample, type JobDocument, setValue } from "../model/document/index.ts";
import { isExample } from "./field.ts";
import { sizesIn } from "./named-sizes.ts";
import { fieldsOf, newThing } from "./topics.ts";

it.each([
  ["40x2", "mm", { od: 40, wall: 2 }],
  ["45 × 2.5 seamless", "mm", { od: 45, wall: 2.5 }],
  ["38,1*2,5", "mm", { od: 38.1, wall: 2.5 }],
  ["1.75x0.095", "in", { od: "1.75 in", wall: "0.095 in" }],
  ["1 3/4 x 0.095", "in", { od: "1 3/4 in", wall: "0.095 in" }],
  ["1-1/2x0.120 DOM", "in", { od: "1 1/2 in", wall: "0.120 in" }],
  // inches in a job in millimetres say no size of it: an example is marked as one, a slip is not
  ["1.75x0.095", "mm", undefined],
  ["1 3/4 x 0.095", "mm", undefined],
  ["tube", "mm", undefined],
  ["4x20", "mm", undefined],
  ["40x0", "mm", undefined],
] as const)("the sizes that %s says, in %s", (name, unit, sizes) => {
  expect(sizesIn(name, unit)).toEqual(sizes);
});

it("a tube's name that says both sizes leaves no example; any other figure is one until it is set or confirmed", () => {
  expect(newThing("tube", "mm", "40x2")).toEqual({ od: 40, wall: 2 });
  const job: JobDocument = {
    format: "tubewright job",
    version: 2,
    tubes: { main: newThing("tube", "mm", "main") },
    dies: { d40: newThing("die", "mm") },
  };
  const marked = (document: JobDocument): readonly string[] =>
    (["tube", "die"] as const)
      .flatMap((kind) => fieldsOf(document, kind, kind === "tube" ? "main" : "d40"))
      .filter((field) => isExample(document, field))
      .map((field) => field.path.join("."));
  expect(marked(job)).toEqual(["tubes.main.od", "tubes.main.wall", "dies.d40.od", "dies.d40.clr"]);
  const edits = [
    setValue(["tubes", "main", "wall"], 2),
    confirmExample(["dies", "d40"], "clr", "clr is right"),
    setValue(["tubes", "main", "od"], 45),
    confirmExample(["dies", "d40"], "od", "od is right"),
  ];
  const left = edits.map((_, i) => {
    const edited = edits.slice(0, i + 1).reduce((document, one) => {
      const next = one.edit(document);
      return next.ok ? next.document : expect.fail(next.lines.join());
    }, job);
    return { marked: marked(edited), keys: JSON.stringify(edited).includes("example") };
  });
  expect(left.map((l) => l.marked.length)).toEqual([3, 2, 1, 0]);
  expect(left.at(-1)?.keys).toBe(false);
});
