import { count, text } from "../findings/index.ts";
import { nodeRules } from "./kinds/index.ts";
import { directionOf, entriesOf, has, isDict, lengthAt, listOf, own } from "./peek.ts";
import { type Fault, keyProblem, type Path, problem } from "./problem.ts";
import { readingProblems } from "./readings.ts";

/** A number as it was given, not rounded. */
const number = (value: number) => text(String(value));

/** A direction shorter than this has none; the job room has no geometry to borrow the tolerance from. */
const NO_DIRECTION = 1e-9;

/** Sine of the angle to a plate's normal below which a direction says nothing of a way in the plate. */
const ALONG_NORMAL = 1e-3;

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

function tubesAndDies(document: unknown): readonly Fault[] {
  const thick = entriesOf(document, "tubes").flatMap(([id, tube]) => {
    const [od, wall] = [lengthAt(own(tube, "od")), lengthAt(own(tube, "wall"))];
    if (od === undefined || wall === undefined || od <= 0 || wall < od / 2) return [];
    return [problem(["tubes", id, "wall"], "no-bore", { wall: number(wall), od: number(od) })];
  });
  const tight = entriesOf(document, "dies").flatMap(([id, die]) => {
    const [od, clr] = [lengthAt(own(die, "od")), lengthAt(own(die, "clr"))];
    if (od === undefined || clr === undefined || clr <= 0 || clr > od / 2) return [];
    return [problem(["dies", id, "clr"], "clr-small", { clr: number(clr), od: number(od) })];
  });
  return [...thick, ...tight];
}

function directionProblem(path: Path, value: unknown): readonly Fault[] {
  const given = directionOf(value);
  return given && Math.hypot(...given) < NO_DIRECTION ? [problem(path, "no-direction")] : [];
}

/** The way a plate's first size runs lies in the plate: of what is given, the part square to the normal counts. */
function alongProblem(path: Path, normal: unknown, along: unknown): readonly Fault[] {
  const nothing = directionProblem(path, along);
  const [n, a] = [directionOf(normal), directionOf(along)];
  if (nothing.length > 0 || !n || !a) return nothing;
  const across = Math.hypot(a[1] * n[2] - a[2] * n[1], a[2] * n[0] - a[0] * n[2], a[0] * n[1] - a[1] * n[0]);
  return across < ALONG_NORMAL * Math.hypot(...n) * Math.hypot(...a) ? [problem(path, "along-normal")] : [];
}

const plates = (document: unknown): readonly Fault[] =>
  entriesOf(document, "plates").flatMap(([id, plate]) => [
    ...directionProblem(["plates", id, "normal"], own(plate, "normal")),
    ...alongProblem(["plates", id, "along"], own(plate, "normal"), own(plate, "along")),
  ]);

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

/** Directions of ends as they were made: a length of nothing points nowhere. */
const madeEnds = (document: unknown): readonly Fault[] =>
  entriesOf(document, "made").flatMap(([id, bar]) =>
    entriesOf(own(bar, "to"), "notched").flatMap(([end, cut]) => {
      const at: Path = ["made", id, "to", "notched", end];
      const plate = own(cut, "plate");
      return [
        ...directionProblem([...at, "out"], own(cut, "out")),
        ...directionProblem([...at, "zero"], own(cut, "zero")),
        ...directionProblem([...at, "plate", "normal"], own(plate, "normal")),
        ...alongProblem([...at, "plate", "along"], own(plate, "normal"), own(plate, "along")),
      ];
    }),
  );

/** A name twice in a list of names. */
function twice(path: Path, names: unknown): readonly Fault[] {
  const list = listOf(names);
  return list.flatMap((name, i) => (list.indexOf(name) < i ? [problem([...path, i], "listed-twice")] : []));
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
  [ids, tubesAndDies, plates, points, bars, madeEnds, readingProblems, lists].flatMap((rule) =>
    rule(document),
  );
