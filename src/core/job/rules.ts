import { count } from "../findings/index.ts";
import { nodeRules } from "./kinds/index.ts";
import { entriesOf, has, isDict, listOf, own } from "./peek.ts";
import { type Fault, keyProblem, type Path, problem } from "./problem.ts";
import { readingProblems } from "./readings.ts";
import { madeRules } from "./rules-made.ts";
import { boreProblem, directionProblem, number, plateProblems, radiusProblem } from "./rules-shapes.ts";

const ID_HOMES = ["tubes", "dies", "plates", "points", "bars"];
const BODY_HOMES = ["lines", "skin", "openings", "panels"];
const LONGEST_ID = 80;

function idProblem(path: Path, id: string): readonly Fault[] {
  if (id.trim() === "") return [keyProblem(path, "id-empty")];
  if (id === "__proto__") return [keyProblem(path, "id-kept")];
  if (id !== id.trim()) return [keyProblem(path, "id-blank")];
  if (id.length > LONGEST_ID) return [keyProblem(path, "id-long", { most: count(LONGEST_ID) })];
  return [];
}

function ids(document: unknown): readonly Fault[] {
  const homes = [
    ...ID_HOMES.map((home) => ({ path: [home], entries: entriesOf(document, home) })),
    ...BODY_HOMES.map((list) => ({
      path: ["body", list],
      entries: entriesOf(own(document, "body"), list),
    })),
  ];
  return homes.flatMap(({ path, entries }) => entries.flatMap(([id]) => idProblem([...path, id], id)));
}

const tubesAndDies = (document: unknown): readonly Fault[] => [
  ...entriesOf(document, "tubes").flatMap(([id, tube]) => boreProblem(["tubes", id], tube)),
  ...entriesOf(document, "dies").flatMap(([id, die]) => radiusProblem(["dies", id], die)),
];

const plates = (document: unknown): readonly Fault[] =>
  entriesOf(document, "plates").flatMap(([id, plate]) => plateProblems(["plates", id], plate));

const points = (document: unknown): readonly Fault[] =>
  entriesOf(document, "points").flatMap(([id, point]) =>
    isDict(point) && has(point, "sd") && !has(point, "at")
      ? [problem(["points", id, "sd"], "error-no-place")]
      : [],
  );

function bars(document: unknown): readonly Fault[] {
  return entriesOf(document, "bars").flatMap(([id, bar]) => {
    const at: Path = ["bars", id];
    const path = listOf(own(bar, "path"));
    const nodes = path.flatMap((node, i) => nodeRules(node, [...at, "path", i], { i, count: path.length }));
    const follow = own(bar, "follow");
    const corners =
      isDict(follow) && path.length > 2
        ? [problem([...at, "path"], "follow-nodes", { count: count(path.length) })]
        : [];
    const believed = (["A", "B"] as const).flatMap((end) => {
      const [from, to] = listOf(own(own(bar, "believed"), end));
      return typeof from === "number" && typeof to === "number" && from > to
        ? [problem([...at, "believed", end], "backwards", { from: number(from), to: number(to) })]
        : [];
    });
    return [
      ...nodes,
      ...corners,
      ...directionProblem([...at, "follow", "side"], own(follow, "side")),
      ...believed,
    ];
  });
}

/** A name twice in a list of names. */
function twice(path: Path, names: unknown): readonly Fault[] {
  const list = listOf(names);
  return list.flatMap((name, i) => (list.indexOf(name) < i ? [problem([...path, i], "listed-twice")] : []));
}

const lists = (document: unknown): readonly Fault[] => [
  ...twice(["order"], own(document, "order")),
  ...twice(["setUp", "done"], own(own(document, "setUp"), "done")),
  ...twice(["body", "roof"], own(own(document, "body"), "roof")),
  ...entriesOf(own(document, "body"), "panels").flatMap(([id, panel]) =>
    twice(["body", "panels", id, "openings"], own(panel, "openings")),
  ),
];

/** What the shape alone cannot say, looked for in the raw document; silent wherever the shape is wrong already. */
export const ruleProblems = (document: unknown): readonly Fault[] =>
  [ids, tubesAndDies, plates, points, bars, madeRules, readingProblems, lists].flatMap((rule) =>
    rule(document),
  );
