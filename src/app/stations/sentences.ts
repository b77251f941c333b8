import {
  at,
  calledOf,
  entries,
  isObject,
  type JobDocument,
  type Json,
  type JsonPath,
  thingsOf,
} from "../document/index.ts";

/**
 * A bar as trade sentences, in order from end A to end B. Pure: the document as typed in, sentences out. Paths are
 * those of the document, so that a part of a sentence is edited where it stands.
 */
export type Part =
  | { readonly kind: "words"; readonly words: string }
  | {
      readonly kind: "length";
      readonly path: JsonPath;
      readonly value: Json | undefined;
      /** What the number is, for its keypad: "height of end A's landing". */
      readonly label: string;
      /** What is said of it above nothing and below: "forward", "back". Without sides it is never below nothing. */
      readonly sides?: readonly [string, string];
      /** What holds where the bar itself says nothing. */
      readonly otherwise?: string;
    }
  | {
      readonly kind: "choice";
      readonly what: Choice;
      readonly path: JsonPath;
      readonly value: string;
      readonly says: string;
      readonly label: string;
    };

/** What is chosen from a list. */
export type Choice =
  | "tube"
  | "die"
  | "host"
  | "plate"
  | "point"
  | "near"
  | "plane"
  | "followed"
  | "side"
  | "original"
  | "end";

export interface Sentence {
  readonly key: string;
  readonly parts: readonly Part[];
  /** The node of the path that it says, counted from A; absent for what is said of the whole bar. */
  readonly node?: number;
  readonly role: "bar" | "A" | "corner" | "B" | "crowd";
}

const words = (text: string): Part => ({ kind: "words", words: text });

/** What the sides of the car axes are called: x forward, y left, z up. */
export const SIDES = { x: ["forward", "back"], y: ["left", "right"], z: ["up", "down"] } as const;
const AXES = ["x", "y", "z"] as const;

/** Nothing where the job has no such bar. */
export function sentencesOf(document: JobDocument, id: string): readonly Sentence[] {
  const bar = thingsOf(document, "bar")[id];
  if (!isObject(bar)) return [];
  const base: JsonPath = ["bars", id];
  if (typeof bar.mirrorOf === "string") return mirrored(document, base, bar.mirrorOf);
  const path = Array.isArray(bar.path) ? (bar.path as readonly Json[]) : [];
  const follows = isObject(bar.follow);
  return [
    madeOf(document, base, bar),
    ...path.flatMap((node, i) => ofNode(document, [...base, "path", i], node, i, path.length)),
    ...(follows ? [ofFollow(document, [...base, "follow"])] : []),
    leftOver(document, base),
  ];
}

function mirrored(document: JobDocument, base: JsonPath, original: string): readonly Sentence[] {
  const says = calledOf(document, "bar", original);
  return [
    {
      key: "mirror",
      role: "bar",
      parts: [
        words("mirror of"),
        {
          kind: "choice",
          what: "original",
          path: [...base, "mirrorOf"],
          value: original,
          says,
          label: "Mirror of which bar",
        },
        words("across the centre plane; change it there, and this one follows"),
      ],
    },
    leftOver(document, base),
  ];
}

function madeOf(document: JobDocument, base: JsonPath, bar: Json): Sentence {
  const tube = String(at(bar, ["tube"]) ?? "");
  const die = at(bar, ["die"]);
  return {
    key: "tube",
    role: "bar",
    parts: [
      words("of tube"),
      { kind: "choice", what: "tube", path: [...base, "tube"], value: tube, says: tube, label: "Tube" },
      words("bent on die"),
      {
        kind: "choice",
        what: "die",
        path: [...base, "die"],
        value: typeof die === "string" ? die : "",
        says: typeof die === "string" ? die : "none",
        label: "Die",
      },
      ...(bendsOf(document, bar)
        ? [
            words("end fed first"),
            {
              kind: "choice",
              what: "end",
              path: [...base, "fromEnd"],
              value: String(at(bar, ["fromEnd"]) ?? "A"),
              says: String(at(bar, ["fromEnd"]) ?? "A"),
              label: "End fed first",
            } as const,
          ]
        : []),
    ],
  };
}

const bendsOf = (_document: JobDocument, bar: Json): boolean => {
  const path = at(bar, ["path"]);
  return isObject(at(bar, ["follow"])) || (Array.isArray(path) && path.length > 2);
};

function ofNode(
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

function ofFollow(document: JobDocument, path: JsonPath): Sentence {
  const bar = String(at(document, [...path, "bar"]) ?? "");
  const side = at(document, [...path, "side"]);
  const from = at(document, [...path, "from"]);
  const to = at(document, [...path, "to"]);
  const station = (key: "from" | "to", value: Json): Part => ({
    kind: "length",
    path: [...path, key],
    value,
    label: `Follows ${key} where`,
    sides: ["along it from its end A", "along it from its end B"],
  });
  return {
    key: "follow",
    role: "bar",
    parts: [
      words("Follows"),
      {
        kind: "choice",
        what: "followed",
        path: [...path, "bar"],
        value: bar,
        says: calledOf(document, "bar", bar),
        label: "Follows which bar",
      },
      words("at"),
      {
        kind: "length",
        path: [...path, "gap"],
        value: at(document, [...path, "gap"]),
        label: "Gap, face to face",
      },
      words("face to face,"),
      {
        kind: "choice",
        what: "side",
        path: [...path, "side"],
        value: typeof side === "string" ? side : "",
        says: typeof side === "string" ? side : "toward a direction",
        label: "On which side",
      },
      ...(from === undefined ? [] : [words("from"), station("from", from)]),
      ...(to === undefined ? [] : [words("to"), station("to", to)]),
    ],
  };
}

function leftOver(document: JobDocument, base: JsonPath): Sentence {
  const shop = at(document, ["shop", "trim"]);
  const otherwise = shop === undefined ? "nothing" : "as the shop leaves";
  const part = (end: "A" | "B"): Part => ({
    kind: "length",
    path: [...base, "trim", end],
    value: at(document, [...base, "trim", end]),
    label: `Left over at end ${end}`,
    otherwise,
  });
  return {
    key: "trim",
    role: "bar",
    parts: [words("Left over at end A"), part("A"), words("at end B"), part("B")],
  };
}

/** All things of a kind that a choice may take, by ID and by what a person calls them. */
export function optionsFor(
  document: JobDocument,
  what: Choice,
  bar: string,
): readonly (readonly [id: string, says: string])[] {
  const bars = (): readonly (readonly [string, string])[] =>
    entries(thingsOf(document, "bar"))
      .filter(([id]) => id !== bar)
      .map(([id]) => [id, calledOf(document, "bar", id)]);
  const ids = (kind: "tube" | "die" | "plate" | "point") =>
    entries(thingsOf(document, kind)).map(([id]) => [id, id] as const);
  switch (what) {
    case "tube":
    case "plate":
    case "point":
      return ids(what);
    case "die":
      return [["", "none: a straight bar"], ...ids("die")];
    case "near":
      return [
        ["", "its only place"],
        ...["left", "right", "front", "rear", "top", "bottom"].map((s) => [s, s] as const),
      ];
    case "side":
      return [
        ["inside", "inside"],
        ["outside", "outside"],
      ];
    case "end":
      return [
        ["A", "end A"],
        ["B", "end B"],
      ];
    case "plane":
      return [
        ["z", "at a height"],
        ["x", "at a distance forward"],
        ["y", "at a distance left"],
      ];
    case "original":
      return bars().filter(([id]) => at(document, ["bars", id, "mirrorOf"]) === undefined);
    case "host":
    case "followed":
      return bars();
  }
}
