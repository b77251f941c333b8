import { describe, expect, it } from "vitest";
import { kindOf, type NodeKind, readJob, referencesOf } from "../index.ts";

/** One node of each kind as a file has it, with the names in it. */
const EXAMPLES: Readonly<Record<NodeKind, readonly [node: unknown, names: readonly string[]]>> = {
  at: [{ at: [1, "2 in", 3] }, []],
  point: [{ point: "p", by: [0, 0, 1] }, ["point p"]],
  step: [{ step: [1, 2, 3] }, []],
  plate: [{ plate: "foot" }, ["plate foot"]],
  along: [{ on: "hoop", along: -40, also: ["brace"] }, ["bar hoop", "bar brace"]],
  plane: [{ on: "hoop", y: 0, near: "top" }, ["bar hoop"]],
  toward: [
    { on: "hoop", toward: { on: "brace", toward: { point: "p" } } },
    ["bar hoop", "bar brace", "point p"],
  ],
};

const tube = "t";
const job = (path: readonly unknown[]) => ({
  format: "tubewright job",
  version: 2,
  tubes: { t: { od: 45, wall: 2.5 } },
  plates: { foot: { at: [0, 0, 0], normal: [0, 0, 1] } },
  points: { p: [1, 2, 3] },
  bars: {
    hoop: {
      tube,
      path: [
        [0, 600, 0],
        [0, 600, 900],
        [0, -600, 900],
        [0, -600, 0],
      ],
    },
    brace: {
      tube,
      path: [
        [500, 600, 0],
        [500, -600, 0],
      ],
    },
    b: { tube, path },
  },
});

describe.each(Object.entries(EXAMPLES))("a node of kind %s", (kind, [node, names]) => {
  // a step has a node before it
  const path = kind === "step" ? [[0, 0, 0], node] : [node, [0, 0, 0]];
  const index = kind === "step" ? 1 : 0;

  it("is told by its keys, and read as that", () => {
    expect(kindOf(node)).toBe(kind);
    const read = readJob(job(path));
    const bar = read.ok && read.job.bars.b;
    const got = bar && bar.kind === "path" ? bar.path[index] : undefined;
    expect(got && (got.kind === "on" ? got.where.by : got.kind)).toBe(kind);
  });

  it("names what its place hangs on", () => {
    const found = referencesOf(job(path)).filter((r) => r.bar === "b" && r.kind !== "tube");
    expect(found.map((r) => `${r.kind} ${r.name}`)).toEqual(names);
  });

  it("is refused with a key that it does not know", () => {
    const read = readJob(job(path.map((n) => (n === node ? { ...(node as object), bogus: 1 } : n))));
    expect(read.ok ? [] : read.problems.map((p) => p.place)).toEqual([`bars.b.path[${index}].bogus`]);
  });
});

describe("the kind of a node", () => {
  it("of a bare place is the place's, and what says none has none", () => {
    expect(kindOf([1, 2, 3])).toBe("at");
    for (const value of [{}, { on: "hoop" }, { along: 3 }, "at", null, undefined, 7])
      expect(kindOf(value)).toBeUndefined();
  });
});
