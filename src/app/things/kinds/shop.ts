import { type Job, readJob, type ShopErrors } from "../../../core/job/index.ts";
import { FIELDS, SHOP_SHEET } from "../../../words/index.ts";
import { at, type JobDocument, type Json, type JsonPath } from "../../model/document/index.ts";
import { degrees, type Field, type List, length, maybe, type Sheet } from "../field.ts";

/** What holds where a job says nothing: what its reading fills in. */
const USUAL: Job["shop"] = (() => {
  const read = readJob({ format: "tubewright job", version: 2 });
  if (!read.ok) throw new Error("an empty job is a job");
  return read.job.shop;
})();

/** What holds for the whole shop, by where it is done: at the joint, the bender, the notcher, and what is off. */
export function shopSheets(document: JobDocument): readonly Sheet[] {
  return [
    {
      key: "shop",
      title: SHOP_SHEET.joints,
      fields: [
        maybe(["shop", "trim"], FIELDS.allowance, FIELDS.none),
        length(["shop", "gap"], FIELDS.gap, { usual: USUAL.gap, fine: true }),
        length(["shop", "kerf"], FIELDS.kerf, { usual: USUAL.kerf, fine: true }),
      ],
    },
    {
      key: "bender",
      title: SHOP_SHEET.bender,
      fields: [
        {
          kind: "choice",
          path: ["bender", "turnSide"],
          label: FIELDS.turnSide,
          options: ["left", "right"],
          otherwise: "left",
        },
        maybe(["bender", "height"], FIELDS.height),
      ],
      beside: "bender",
    },
    {
      key: "notcher",
      title: SHOP_SHEET.notcher,
      fields: [
        degrees(["notcher", "steepest"], FIELDS.steepest, 1, 89, { optional: FIELDS.notSet }),
        length(["notcher", "wrapBeyond"], SHOP_SHEET.wrapBeyond, { optional: SHOP_SHEET.asGap, fine: true }),
      ],
      lists: [saws(document)],
    },
    torch(document),
    { key: "errors", title: SHOP_SHEET.errors, fields: ERRORS, beside: "errors" },
  ];
}

function saws(document: JobDocument): List {
  const base: JsonPath = ["notcher", "saws"];
  const list = at(document, base);
  const saws = Array.isArray(list) ? (list as readonly Json[]) : [];
  return {
    title: SHOP_SHEET.saws,
    close: true,
    entries: saws.map((_, i) => ({
      key: `saw ${i}`,
      says: SHOP_SHEET.saw(i + 1),
      fields: [length([...base, i], SHOP_SHEET.diameter)],
      remove: { says: SHOP_SHEET.removeSaw(i + 1), without: [[[...base, i], undefined]] },
    })),
    add: {
      says: SHOP_SHEET.newSaw,
      asks: [{ field: length([], SHOP_SHEET.diameter) }],
      to: () => [...base, saws.length],
    },
  };
}

/** The torch is two figures, or none. */
function torch(document: JobDocument): Sheet {
  const path: JsonPath = ["shop", "torch"];
  const figures = (base: JsonPath) => [
    length([...base, "od"], SHOP_SHEET.torchOd),
    length([...base, "length"], SHOP_SHEET.torchLength),
  ];
  const isThere = at(document, path) !== undefined;
  return {
    key: "torch",
    title: SHOP_SHEET.torch,
    fields: isThere ? figures(path) : [],
    ...(isThere
      ? { remove: { says: SHOP_SHEET.removeTorch, without: [[path, undefined]] } }
      : {
          adds: [
            {
              says: SHOP_SHEET.enterTorch,
              asks: figures([]).map((field) => ({ field })),
              to: () => path,
            },
          ],
        }),
  };
}

/** What readings and work of a kind are off by, and whether that is a length or an angle. */
export const ERROR_KINDS = {
  mark: "mm",
  angle: "°",
  turn: "°",
  tape: "mm",
  slope: "°",
  height: "mm",
  level: "mm",
  plumb: "mm",
} as const satisfies Readonly<Record<keyof ShopErrors, "mm" | "°">>;
export type ErrorKind = keyof typeof ERROR_KINDS;

const errorField = (kind: ErrorKind): Field => {
  const path: JsonPath = ["shop", "errors", kind];
  const usual = USUAL.errors[kind];
  return ERROR_KINDS[kind] === "mm"
    ? length(path, SHOP_SHEET.error[kind], { usual, fine: true })
    : degrees(path, SHOP_SHEET.error[kind], 0, 45, { usual });
};

/** What work and readings of this shop are off by, one standard deviation each. */
const ERRORS = (Object.keys(ERROR_KINDS) as ErrorKind[]).map(errorField);
