import { DIE_SHEET, FIELDS } from "../../../words/index.ts";
import { at, type JobDocument, type Json, type JsonPath } from "../../model/document/index.ts";
import {
  type Add,
  type Ask,
  degrees,
  type Entry,
  type Field,
  type List,
  length,
  maybe,
  type Sheet,
} from "../field.ts";

/** No bender is set beyond this (degrees). */
const MOST_SET = 180;

export function die(_: JobDocument, id: string): readonly Field[] {
  const base = ["dies", id];
  return [
    length([...base, "od"], FIELDS.tubeOd),
    length([...base, "clr"], FIELDS.radius),
    maybe([...base, "clamp"], FIELDS.clamp),
    maybe([...base, "between"], FIELDS.between),
    maybe([...base, "tail"], FIELDS.tail),
    degrees([...base, "maxAngle"], FIELDS.most, 1, 360, { optional: FIELDS.notSet }),
    length([...base, "mark"], FIELDS.mark, { sides: FIELDS.markSides, optional: FIELDS.atStart }),
    degrees([...base, "arcFactor"], DIE_SHEET.arcFactor, 0.5, 2, { unit: "", optional: DIE_SHEET.one }),
  ];
}

const set = (path: JsonPath): Field => degrees(path, DIE_SHEET.set, 1, MOST_SET);
const got = (path: JsonPath): Field => degrees(path, DIE_SHEET.got, 1, 179);

/** The figures of one test bend, where it is kept; a leg alone says nothing: both are there or none. */
const testFields = (path: JsonPath, hasLegs: boolean): readonly Field[] => [
  set([...path, "set"]),
  got([...path, "got"]),
  ...(hasLegs
    ? [
        length([...path, "legs", 0], DIE_SHEET.leg("A"), { optional: DIE_SHEET.notMeasured }),
        length([...path, "legs", 1], DIE_SHEET.leg("B"), { optional: DIE_SHEET.notMeasured }),
      ]
    : []),
  maybe([...path, "stick"], DIE_SHEET.stick, DIE_SHEET.notMeasured),
];

const ask = (field: Field, skip?: string): Ask => ({
  field: field as Ask["field"],
  ...(skip === undefined ? {} : { skip }),
});

/** A test bend's figures, and what is left to be measured of it. */
const legsOf = (path: JsonPath, hasLegs: boolean): Pick<Entry, "fields" | "adds"> => ({
  fields: testFields(path, hasLegs),
  ...(hasLegs
    ? {}
    : {
        adds: [
          {
            says: DIE_SHEET.addLegs,
            asks: [ask(length([0], DIE_SHEET.leg("A"))), ask(length([1], DIE_SHEET.leg("B")))],
            to: () => [...path, "legs"],
          },
        ],
      }),
});

/** The test bends of a die: what was set, what came, both legs and the stick. */
function testsOf(document: JobDocument, id: string): List {
  const base: JsonPath = ["dies", id, "tests"];
  const tests = at(document, base);
  const list = Array.isArray(tests) ? (tests as readonly Json[]) : [];
  return {
    title: DIE_SHEET.tests,
    entries: list.map((test, i) => ({
      key: `test ${i}`,
      says: DIE_SHEET.test(i + 1),
      ...legsOf([...base, i], at(test, ["legs"]) !== undefined),
      remove: { says: DIE_SHEET.removeTest(i + 1), without: [[[...base, i], undefined]] },
    })),
    add: {
      says: DIE_SHEET.newTest,
      asks: [
        ask(set(["set"])),
        ask(got(["got"])),
        ask(length(["legs", 0], DIE_SHEET.leg("A")), DIE_SHEET.skipLegs),
        ask(length(["legs", 1], DIE_SHEET.leg("B"))),
        ask(length(["stick"], DIE_SHEET.stick)),
      ],
      to: () => [...base, list.length],
    },
  };
}

/** What the sheet of a die has beside its figures: its test bends, springback as it is known, and what they say. */
export function dieSheet(document: JobDocument, id: string): Pick<Sheet, "lists" | "adds" | "beside"> {
  return { lists: [testsOf(document, id)], adds: stated(document, id), beside: "die" };
}

/** Springback as a maker or an earlier notebook gives it; it goes before the test bends, and is two figures. */
function stated(document: JobDocument, id: string): readonly Add[] {
  const path: JsonPath = ["dies", id, "springback"];
  if (at(document, path) !== undefined) return [];
  return [
    {
      says: DIE_SHEET.enterSpringback,
      asks: [
        ask(degrees(["k"], DIE_SHEET.k, 0.5, 1.5, { unit: "" })),
        ask(degrees(["c"], DIE_SHEET.c, -90, 90, { sides: DIE_SHEET.moreOrLess })),
      ],
      to: () => path,
    },
  ];
}

/** Springback as stated, as a sheet of its own below its die; nothing where the test bends give it. */
export function statedSprings(document: JobDocument, id: string): readonly Sheet[] {
  const path: JsonPath = ["dies", id, "springback"];
  if (at(document, path) === undefined) return [];
  return [
    {
      key: `${id} springback`,
      title: DIE_SHEET.springback(id),
      fields: [
        degrees([...path, "k"], DIE_SHEET.k, 0.5, 1.5, { unit: "" }),
        degrees([...path, "c"], DIE_SHEET.c, -90, 90, { sides: DIE_SHEET.moreOrLess }),
      ],
      remove: { says: DIE_SHEET.removeSpringback(id), without: [[path, undefined]] },
    },
  ];
}
