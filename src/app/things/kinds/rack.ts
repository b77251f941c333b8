import { RACK_SHEET } from "../../../words/index.ts";
import { at, entries, type JobDocument, type Json, type JsonPath } from "../../model/document/index.ts";
import { type ChoiceField, length, type Sheet } from "../field.ts";

const BASE: JsonPath = ["rack"];

/** The pieces in stock, by tube. */
export function rackSheets(document: JobDocument): readonly Sheet[] {
  const rack = at(document, BASE);
  const list = Array.isArray(rack) ? (rack as readonly Json[]) : [];
  const tubes = entries(document.tubes).map(([id]) => id);
  const tube = (path: JsonPath): ChoiceField => ({
    kind: "choice",
    path,
    label: RACK_SHEET.tube,
    options: tubes,
    otherwise: tubes[0] ?? "",
  });
  return [
    ...list.map((one, i): Sheet => {
      const id = String(at(one, ["tube"]) ?? "");
      const pieces = at(one, ["pieces"]);
      const of: JsonPath = [...BASE, i, "pieces"];
      return {
        key: `rack ${i}`,
        title: RACK_SHEET.of(id),
        fields: [tube([...BASE, i, "tube"])],
        remove: { says: RACK_SHEET.remove(id), without: [[[...BASE, i], undefined]] },
        lists: [
          {
            title: RACK_SHEET.pieces,
            close: true,
            entries: (Array.isArray(pieces) ? (pieces as readonly Json[]) : []).map((_, k) => ({
              key: `piece ${k}`,
              says: RACK_SHEET.piece(k + 1),
              fields: [length([...of, k], RACK_SHEET.length)],
              remove: { says: RACK_SHEET.removePiece(k + 1), without: [[[...of, k], undefined]] },
            })),
            add: {
              says: RACK_SHEET.newPiece,
              asks: [{ field: length([], RACK_SHEET.length) }],
              to: () => [...of, Array.isArray(pieces) ? pieces.length : 0],
            },
          },
        ],
      };
    }),
    {
      key: "rack",
      title: RACK_SHEET.title,
      fields: [],
      adds:
        tubes.length === 0
          ? []
          : [
              {
                says: RACK_SHEET.create,
                asks: [{ field: tube(["tube"]) }, { field: length(["pieces", 0], RACK_SHEET.length) }],
                to: () => [...BASE, list.length],
              },
            ],
    },
  ];
}
