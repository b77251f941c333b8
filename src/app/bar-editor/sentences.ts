import { ALONG_SIDES, BAR } from "../../words/index.ts";
import {
  at,
  calledOf,
  isObject,
  type JobDocument,
  type Json,
  type JsonPath,
  same,
  thingsOf,
} from "../model/document/index.ts";
import { ofNode } from "./node-sentences.ts";
import { WAYS } from "./options.ts";
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
    allowances(document, base),
  ];
}

function mirrored(document: JobDocument, base: JsonPath, original: string): readonly Sentence[] {
  const says = calledOf(document, "bar", original);
  return [
    {
      key: "mirror",
      role: "bar",
      parts: [
        words(BAR.mirrorOf),
        {
          kind: "choice",
          what: "original",
          path: [...base, "mirrorOf"],
          value: original,
          says,
          label: BAR.mirrorWhich,
        },
        words(BAR.mirrored(says)),
      ],
    },
    allowances(document, base),
  ];
}

function madeOf(base: JsonPath, bar: Json): Sentence {
  const tube = String(at(bar, ["tube"]) ?? "");
  const die = at(bar, ["die"]);
  return {
    key: "tube",
    role: "bar",
    parts: [
      words(BAR.tube),
      { kind: "choice", what: "tube", path: [...base, "tube"], value: tube, says: tube, label: BAR.tube },
      words(BAR.die),
      {
        kind: "choice",
        what: "die",
        path: [...base, "die"],
        value: typeof die === "string" ? die : "",
        says: typeof die === "string" ? die : BAR.noDie,
        label: BAR.whichDie,
      },
      ...(bendsOf(bar)
        ? [
            words(BAR.fedFirst),
            {
              kind: "choice",
              what: "end",
              path: [...base, "fromEnd"],
              value: String(at(bar, ["fromEnd"]) ?? "A"),
              says: String(at(bar, ["fromEnd"]) ?? "A"),
              label: BAR.whichFedFirst,
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
  const station = (key: "from" | "to", value: Json | undefined): Part => ({
    kind: "length",
    path: [...path, key],
    value,
    label: key === "from" ? BAR.followsFrom : BAR.followsTo,
    sides: ALONG_SIDES,
    otherwise: key === "from" ? BAR.fromStart : BAR.toEnd,
  });
  return {
    key: "follow",
    role: "bar",
    parts: [
      words(BAR.follows),
      {
        kind: "choice",
        what: "followed",
        path: [...path, "bar"],
        value: bar,
        says: calledOf(document, "bar", bar),
        label: BAR.followsWhich,
      },
      words(BAR.outside),
      {
        kind: "length",
        path: [...path, "gap"],
        value: at(document, [...path, "gap"]),
        label: BAR.gap,
      },
      words(BAR.onSide),
      {
        kind: "choice",
        what: "side",
        path: [...path, "side"],
        value: typeof side === "string" ? side : "",
        says: typeof side === "string" ? side : saysSide(side),
        label: BAR.side,
        make: (id) => WAYS[id] ?? id,
      },
      words(BAR.from),
      station("from", from),
      words(BAR.to),
      station("to", to),
    ],
  };
}

/** A direction by its name, where it has one. */
function saysSide(side: Json | undefined): string {
  const named = Object.entries(WAYS).find(([, way]) => same(way, side));
  return named ? BAR.way(named[0]) : BAR.toward;
}

function allowances(document: JobDocument, base: JsonPath): Sentence {
  const shop = at(document, ["shop", "trim"]);
  const otherwise = shop === undefined ? BAR.noAllowance : BAR.shopAllowance;
  const part = (end: "A" | "B"): Part => ({
    kind: "length",
    path: [...base, "trim", end],
    value: at(document, [...base, "trim", end]),
    label: BAR.allowanceAt(end),
    otherwise,
  });
  return {
    key: "trim",
    role: "bar",
    parts: [words(BAR.allowance), part("A"), words(BAR.allowanceB), part("B")],
  };
}
