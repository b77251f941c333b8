import { BODY_SHEET } from "../../../words/index.ts";
import { at, entries, type JobDocument, type Json, type JsonPath } from "../../model/document/index.ts";
import { type Add, type List, place, type Remove, type Sheet } from "../field.ts";

/** What is measured of the body as places in order, where the job keeps it, and how many places it has at least. */
const OUTLINES = [
  ["lines", 2],
  ["skin", 2],
  ["openings", 3],
  ["panels", 3],
] as const;
type Outline = (typeof OUTLINES)[number][0];

/** The body round the bars: lines, skin, openings, panels, and what comes off with the roof. */
export function bodySheets(document: JobDocument): readonly Sheet[] {
  const names = OUTLINES.flatMap(([home]) => namesOf(document, home));
  return [
    ...OUTLINES.flatMap(([home, least]) =>
      namesOf(document, home).map((name) => outline(document, home, name, least)),
    ),
    {
      key: "roof",
      title: BODY_SHEET.roof,
      fields:
        names.length === 0
          ? []
          : [{ kind: "names", path: ["body", "roof"], label: BODY_SHEET.comesOff, options: names }],
      adds: OUTLINES.map(([home, least]) => adding(home, least)),
    },
  ];
}

const namesOf = (document: JobDocument, home: Outline): readonly string[] =>
  entries(at(document, ["body", home])).map(([name]) => name);

const pathOf = (home: Outline, name: string): JsonPath => [
  "body",
  home,
  name,
  ...(home === "panels" ? ["edge"] : []),
];

function outline(document: JobDocument, home: Outline, name: string, least: number): Sheet {
  const openings = namesOf(document, "openings");
  return {
    key: `${home} ${name}`,
    title: BODY_SHEET.named(BODY_SHEET.one[home], name),
    remove: {
      says: BODY_SHEET.remove(BODY_SHEET.one[home], name),
      without: without(document, home, name),
    },
    fields:
      home === "panels" && openings.length > 0
        ? [
            {
              kind: "names",
              path: ["body", home, name, "openings"],
              label: BODY_SHEET.cutOut,
              options: openings,
            },
          ]
        : [],
    lists: [placesOf(document, pathOf(home, name), least)],
  };
}

/** Its places in order; as many as it needs cannot be taken out. */
function placesOf(document: JobDocument, base: JsonPath, least: number): List {
  const value = at(document, base);
  const list = Array.isArray(value) ? (value as readonly Json[]) : [];
  return {
    title: BODY_SHEET.places,
    close: true,
    entries: list.map((_, i) => ({
      key: `place ${i}`,
      says: BODY_SHEET.place(i + 1),
      fields: [place([...base, i], BODY_SHEET.place(i + 1))],
      ...(list.length > least
        ? { remove: { says: BODY_SHEET.removePlace(i + 1), without: [[[...base, i], undefined]] } }
        : {}),
    })),
    add: {
      says: BODY_SHEET.newPlace,
      asks: [{ field: place([], BODY_SHEET.place(list.length + 1)) }],
      to: () => [...base, list.length],
    },
  };
}

const adding = (home: Outline, least: number): Add => ({
  says: BODY_SHEET.create(BODY_SHEET.one[home]),
  name: { label: BODY_SHEET.nameLabel(BODY_SHEET.one[home]), usual: BODY_SHEET.usual[home] },
  asks: Array.from({ length: least }, (_, i) => ({
    field: place(home === "panels" ? ["edge", i] : [i], BODY_SHEET.place(i + 1)),
  })),
  to: (_, name) => ["body", home, name],
});

/** Out with it, and with its name where the roof or a panel has it. */
function without(document: JobDocument, home: Outline, name: string): Remove["without"] {
  const less = (path: JsonPath): Remove["without"] => {
    const list = at(document, path);
    if (!Array.isArray(list) || !list.includes(name)) return [];
    return [[path, list.filter((n) => n !== name) as readonly Json[]]];
  };
  return [
    ...less(["body", "roof"]),
    ...(home === "openings"
      ? namesOf(document, "panels").flatMap((panel) => less(["body", "panels", panel, "openings"]))
      : []),
    [["body", home, name], undefined],
  ];
}
