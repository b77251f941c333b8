import fc from "fast-check";
import { describe, expect, it } from "vitest";
import { sayProblem } from "../../words/index.ts";
import { circleProblems, tangles } from "./circle.ts";
import type { Reference } from "./references.ts";

const link = (bar: string, name: string, i = 0): Reference => ({
  kind: "bar",
  name,
  path: ["bars", bar, "path", i, "on"],
  bar,
  link: "land on",
});

/** The slow twin: which bars can reach one another, by Warshall's closure. */
function slowTangles(edges: readonly (readonly [number, number])[], n: number): string {
  const reach = Array.from({ length: n }, () => Array.from({ length: n }, () => false));
  for (const [a, b] of edges) reach[a]![b] = true;
  for (let k = 0; k < n; k++)
    for (let i = 0; i < n; i++) for (let j = 0; j < n; j++) reach[i]![j] ||= reach[i]![k]! && reach[k]![j]!;
  const groups = new Set<string>();
  for (let i = 0; i < n; i++) {
    const group = [...reach.keys()].filter((j) => j === i || (reach[i]![j] && reach[j]![i]));
    if (group.length > 1) groups.add(group.join());
  }
  return [...groups].sort().join(" ");
}

describe("circles", () => {
  it("are printed once each, from the bar that comes first", () => {
    const references = [
      link("hoop", "cross"),
      link("cross", "hoop", 1),
      link("a", "b"),
      link("b", "c"),
      link("c", "a"),
    ];
    const lines = circleProblems(references).map((p) => `${p.place}: ${sayProblem(p).split(": ").at(-1)}`);
    expect(lines).toEqual(["bars.hoop.path[0].on: hoop → cross → hoop", "bars.a.path[0].on: a → b → c → a"]);
  });

  it("are none where bars only lead on", () => {
    expect(circleProblems([link("a", "b"), link("a", "c"), link("b", "c"), link("c", "nobody")])).toEqual([]);
  });

  it("shorten a long circle and stand a chain as long as the job", () => {
    const n = 50_000;
    const chain = Array.from({ length: n }, (_, i) => link(`b${i}`, `b${i + 1}`));
    expect(circleProblems(chain)).toEqual([]);
    const [ring] = circleProblems([...chain, link(`b${n}`, "b0")]);
    expect(sayProblem(ring!)).toContain("b0 → b1 → b2 → b3 → b4 → b5 → … 49990 more … → b49996");
    expect(sayProblem(ring!).endsWith("b50000 → b0")).toBe(true);
  });

  it("are found as by the closure of who reaches whom", () => {
    const edge = fc.tuple(fc.integer({ min: 0, max: 8 }), fc.integer({ min: 0, max: 8 }));
    fc.assert(
      fc.property(fc.array(edge, { maxLength: 16 }), (edges) => {
        const graph = new Map<string, string[]>();
        for (const [a, b] of edges) graph.set(`${a}`, [...(graph.get(`${a}`) ?? []), `${b}`]);
        const fast = tangles(graph).map((group) => [...group].sort().join());
        expect(fast.sort().join(" ")).toBe(slowTangles(edges, 9));
        const problems = circleProblems(edges.map(([a, b]) => link(`${a}`, `${b}`)));
        const walked = problems.filter((p) => p.code === "circle");
        expect(walked.length).toBe(fast.length);
        for (const problem of walked) {
          const steps = sayProblem(problem).split(": ").at(-1)!.split(" → ");
          expect(steps[0]).toBe(steps.at(-1));
          for (let i = 1; i < steps.length; i++) expect(graph.get(steps[i - 1]!)).toContain(steps[i]);
        }
      }),
      { seed: 22, numRuns: 500 },
    );
  });
});
