import {
  at,
  calledOf,
  isObject,
  type JobDocument,
  type Json,
  type JsonPath,
} from "../model/document/index.ts";
import { AXES, type Part, type Sentence, SIDES, words } from "./parts.ts";

/** One node of a path as its sentences: where it is or what it lands on, and what it is coped to besides. */
export function ofNode(
  document: JobDocument,
  path: JsonPath,
  node: Json,
  i: number,
  count: number,
): readonly Sentence[] {
  const role = i === 0 ? "A" : i === count - 1 ? "B" : "corner";
  const who = role === "corner" ? `Corner ${i}` : `End ${role}`;
  const one = (parts: readonly Part[]): Sentence => ({
    key: `node ${i}`,
    role,
    node: i,
    parts: [words(who), ...parts],
  });
  if (Array.isArray(node))
    return [one([words(role === "corner" ? "" : "at"), ...coordinates(path, node, who)])];
  if (!isObject(node)) return [];
  if ("at" in node)
    return [one([words(role === "corner" ? "" : "at"), ...coordinates([...path, "at"], node.at!, who)])];
  if ("step" in node)
    return [one([words("from the one before:"), ...coordinates([...path, "step"], node.step!, who)])];
  if ("point" in node) {
    const point = String(node.point);
    const chosen: Part = {
      kind: "choice",
      what: "point",
      path: [...path, "point"],
      value: point,
      says: point,
      label: `${who}: which point`,
    };
    return [
      one([
        words("at point"),
        chosen,
        ...("by" in node ? [words("and from there"), ...coordinates([...path, "by"], node.by!, who)] : []),
      ]),
    ];
  }
  if ("plate" in node) {
    const plate = String(node.plate);
    return [
      one([
        words("stands on plate"),
        {
          kind: "choice",
          what: "plate",
          path: [...path, "plate"],
          value: plate,
          says: plate,
          label: `${who}: which plate`,
        },
      ]),
    ];
  }
  if (!("on" in node)) return [];
  return [one(landing(document, path, node, who)), ...crowd(document, path, node, i, who)];
}

function coordinates(path: JsonPath, place: Json, who: string): readonly Part[] {
  const list = Array.isArray(place) ? (place as readonly Json[]) : [];
  return AXES.map(
    (axis, k): Part => ({
      kind: "length",
      path: [...path, k],
      value: list[k],
      label: `${who}: how far ${SIDES[axis].join(" or ")}`,
      sides: SIDES[axis],
    }),
  );
}

function host(document: JobDocument, path: JsonPath, id: string, who: string): Part {
  return {
    kind: "choice",
    what: "host",
    path,
    value: id,
    says: calledOf(document, "bar", id),
    label: `${who}: lands on which bar`,
  };
}

function landing(document: JobDocument, path: JsonPath, node: Json, who: string): readonly Part[] {
  const on = String(at(node, ["on"]) ?? "");
  const parts: Part[] = [words("lands on"), host(document, [...path, "on"], on, who)];
  const axis = AXES.find((a) => at(node, [a]) !== undefined);
  const toward = at(node, ["toward"]);
  if (at(node, ["along"]) !== undefined) {
    parts.push({
      kind: "length",
      path: [...path, "along"],
      value: at(node, ["along"]),
      label: `${who}: how far along ${calledOf(document, "bar", on)}`,
      sides: ["along it from its end A", "along it from its end B"],
    });
  } else if (axis) {
    const near = at(node, ["near"]);
    parts.push(
      {
        kind: "choice",
        what: "near",
        path: [...path, "near"],
        value: typeof near === "string" ? near : "",
        says: typeof near === "string" ? near : near === undefined ? "its only place" : "nearest to a place",
        label: `${who}: which side of ${calledOf(document, "bar", on)}`,
      },
      {
        kind: "length",
        path: [...path, axis],
        value: at(node, [axis]),
        label: `${who}: where on it`,
        sides: SIDES[axis],
      },
    );
  } else if (toward !== undefined) {
    parts.push(words("at its place nearest to"));
    const place = Array.isArray(toward)
      ? { path: [...path, "toward"], at: toward }
      : at(toward, ["at"]) !== undefined
        ? { path: [...path, "toward", "at"], at: at(toward, ["at"])! }
        : undefined;
    if (place) parts.push(...coordinates(place.path, place.at, who));
    else parts.push(words(saysTarget(document, toward)));
  }
  const off = at(node, ["off"]);
  if (Array.isArray(off))
    parts.push(words("moved off it"), ...coordinates([...path, "off"], off as Json, who));
  return parts;
}

function saysTarget(document: JobDocument, target: Json): string {
  const point = at(target, ["point"]);
  if (typeof point === "string") return `point ${point}`;
  const on = at(target, ["on"]);
  return typeof on === "string" ? `a landing on ${calledOf(document, "bar", on)}` : "a place";
}

function crowd(
  document: JobDocument,
  path: JsonPath,
  node: Json,
  i: number,
  who: string,
): readonly Sentence[] {
  const also = at(node, ["also"]);
  if (!Array.isArray(also)) return [];
  return (also as readonly Json[]).map((id, k) => ({
    key: `node ${i} also ${k}`,
    role: "crowd" as const,
    node: i,
    parts: [
      words(`${who} is coped to`),
      host(document, [...path, "also", k], String(id), `${who}, beside its host`),
      words("too"),
    ],
  }));
}
