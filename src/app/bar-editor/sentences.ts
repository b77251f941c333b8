import {
  at,
  calledOf,
  isObject,
  type JobDocument,
  type Json,
  type JsonPath,
  thingsOf,
} from "../model/document/index.ts";
import { ofNode } from "./node-sentences.ts";
import { type Part, type Sentence, words } from "./parts.ts";

/**
 * A bar as trade sentences, in order from end A to end B; nothing where the job has no such bar. Pure: the document as
 * typed in, sentences out. Paths are those of the document, so that a part of a sentence is edited where it stands.
 */
export function sentencesOf(document: JobDocument, id: string): readonly Sentence[] {
  const bar = thingsOf(document, "bar")[id];
  if (!isObject(bar)) return [];
  const base: JsonPath = ["bars", id];
  if (typeof bar.mirrorOf === "string") return mirrored(document, base, bar.mirrorOf);
  const path = Array.isArray(bar.path) ? (bar.path as readonly Json[]) : [];
  const follows = isObject(bar.follow);
  return [
    madeOf(base, bar),
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

function madeOf(base: JsonPath, bar: Json): Sentence {
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
      ...(bendsOf(bar)
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

const bendsOf = (bar: Json): boolean => {
  const path = at(bar, ["path"]);
  return isObject(at(bar, ["follow"])) || (Array.isArray(path) && path.length > 2);
};

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
