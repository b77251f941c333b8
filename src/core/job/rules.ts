import { nodeRules } from "./kinds/index.ts";
import { directionOf, entriesOf, has, isDict, lengthAt, listOf, own } from "./peek.ts";
import { type Fault, keyProblem, type Path, problem } from "./problem.ts";
import { readingProblems } from "./readings.ts";

/** A direction shorter than this has none; the job room has no geometry to borrow the tolerance from. */
const NO_DIRECTION = 1e-9;

/** Sine of the angle to a plate's normal below which a direction says nothing of a way in the plate. */
const ALONG_NORMAL = 1e-3;

const ID_HOMES = ["tubes", "dies", "plates", "points", "bars"];
const BODY_HOMES = ["lines", "skin", "openings", "panels"];
const LONGEST_ID = 80;

function idProblem(path: Path, id: string): readonly Fault[] {
  if (id.trim() === "") return [keyProblem(path, "an ID cannot be empty")];
  if (id === "__proto__") return [keyProblem(path, "this word is kept by the language; choose another ID")];
  if (id !== id.trim()) return [keyProblem(path, "an ID cannot begin or end with a blank")];
  if (id.length > LONGEST_ID) return [keyProblem(path, `an ID has at most ${LONGEST_ID} characters`)];
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

function tubesAndDies(document: unknown): readonly Fault[] {
  const thick = entriesOf(document, "tubes").flatMap(([id, tube]) => {
    const [od, wall] = [lengthAt(own(tube, "od")), lengthAt(own(tube, "wall"))];
    if (od === undefined || wall === undefined || od <= 0 || wall < od / 2) return [];
    return [problem(["tubes", id, "wall"], `a wall of ${wall} mm leaves no bore in a tube of ${od} mm`)];
  });
  const tight = entriesOf(document, "dies").flatMap(([id, die]) => {
    const [od, clr] = [lengthAt(own(die, "od")), lengthAt(own(die, "clr"))];
    if (od === undefined || clr === undefined || clr <= 0 || clr > od / 2) return [];
    const message = `a centreline radius of ${clr} mm is no more than half the tube of ${od} mm`;
    return [problem(["dies", id, "clr"], message)];
  });
  return [...thick, ...tight];
}

function directionProblem(path: Path, value: unknown): readonly Fault[] {
  const given = directionOf(value);
  return given && Math.hypot(...given) < NO_DIRECTION ? [problem(path, "a direction cannot be nothing")] : [];
}

/** The way a plate's first size runs lies in the plate: of what is given, the part square to the normal counts. */
function alongProblem(path: Path, normal: unknown, along: unknown): readonly Fault[] {
  const nothing = directionProblem(path, along);
  const [n, a] = [directionOf(normal), directionOf(along)];
  if (nothing.length > 0 || !n || !a) return nothing;
  const across = Math.hypot(a[1] * n[2] - a[2] * n[1], a[2] * n[0] - a[0] * n[2], a[0] * n[1] - a[1] * n[0]);
  return across < ALONG_NORMAL * Math.hypot(...n) * Math.hypot(...a)
    ? [problem(path, "runs along the plate's normal; give a direction in the plate")]
    : [];
}

const plates = (document: unknown): readonly Fault[] =>
  entriesOf(document, "plates").flatMap(([id, plate]) => [
    ...directionProblem(["plates", id, "normal"], own(plate, "normal")),
    ...alongProblem(["plates", id, "along"], own(plate, "normal"), own(plate, "along")),
  ]);

const points = (document: unknown): readonly Fault[] =>
  entriesOf(document, "points").flatMap(([id, point]) =>
    isDict(point) && has(point, "sd") && !has(point, "at")
      ? [problem(["points", id, "sd"], "an error without a place; give at beside it, or leave the point {}")]
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
        ? [
            problem(
              [...at, "path"],
              `follow gives the corners; the path has just its two ends, not ${path.length} nodes`,
            ),
          ]
        : [];
    const believed = (["A", "B"] as const).flatMap((end) => {
      const [from, to] = listOf(own(own(bar, "believed"), end));
      return typeof from === "number" && typeof to === "number" && from > to
        ? [problem([...at, "believed", end], `from ${from} to ${to} runs backwards`)]
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
  return list.flatMap((name, i) =>
    list.indexOf(name) < i ? [problem([...path, i], "is in the list already")] : [],
  );
}

const lists = (document: unknown): readonly Fault[] => [
  ...twice(["order"], own(document, "order")),
  ...twice(["body", "roof"], own(own(document, "body"), "roof")),
  ...entriesOf(own(document, "body"), "panels").flatMap(([id, panel]) =>
    twice(["body", "panels", id, "openings"], own(panel, "openings")),
  ),
];

/** What the shape alone cannot say, looked for in the raw document; silent wherever the shape is wrong already. */
export const ruleProblems = (document: unknown): readonly Fault[] =>
  [ids, tubesAndDies, plates, points, bars, readingProblems, lists].flatMap((rule) => rule(document));
