/**
 * What comes out of the printer is as large as the drawing says. Measured on pictures that other programs made of our
 * files: poppler (PDF), librsvg (SVG), ezdxf and dxf-parser (DXF).
 */
import { mkdtempSync, writeFileSync } from "node:fs";
import { tmpdir } from "node:os";
import { join } from "node:path";
import DxfParser from "dxf-parser";
import { beforeAll, describe, expect, test } from "vitest";
import {
  A4,
  arc,
  CHECK_SQUARE,
  checkSquare,
  circle,
  group,
  hatch,
  LETTER,
  line,
  type Mark,
  type Point,
  paragraph,
  polyline,
  type Sheet,
  sheetFrame,
  table,
  text,
  tile,
  toDxf,
  toPdf,
  toSvg,
} from "../../src/draw/index.ts";
import { arrowhead } from "../../src/draw/parts/arrow.ts";
import { checkRule } from "../../src/draw/parts/check.ts";
import { type Grey, inkBox, strokes } from "../pgm.ts";
import { run } from "../programs.ts";
import { FONTS, PX, picture as rendered } from "../rendering.ts";

const DIR = mkdtempSync(join(tmpdir(), "tubewright-print-"));
const file = (name: string): string => join(DIR, name);
const picture = (pdf: string, page = 1): Grey => rendered(pdf, file(`page-${page}`), page);

/** Distances between strokes along a row at `y` mm (or a column at `x` mm), from the first, mm. */
const along = (grey: Grey, way: "row" | "column", mm: number): number[] => {
  const found = strokes(grey, way, Math.round(mm * PX)).map((at) => at / PX);
  return found.map((at) => at - found[0]!);
};

const AT: Point = [30, 40];
const plain = (marks: readonly Mark[], name = "check"): Sheet => ({ name, width: 210, height: 297, marks });

/** The square's lines without its words, so that a scan meets nothing else. */
const squareOnly = plain(
  checkSquare(AT).map((mark) =>
    mark.kind === "group" ? { ...mark, marks: mark.marks.filter((inner) => inner.kind !== "text") } : mark,
  ),
);

const wordy = plain([
  ...sheetFrame(A4, {
    title: "Bender card",
    fields: [
      ["Tube", "Ø44.5 × 2.5"],
      ["Hand", "left"],
    ],
    note: "Größe ČŽ Ж",
  }).marks,
  ...paragraph([20, 150], 80, "12-5/16″ at 90° ± ½°, office AVATAR").marks,
  ...table(
    [20, 180],
    [
      { title: "Bend", width: 20 },
      { title: "Mark", width: 40, anchor: "end" },
    ],
    [["1", "312.5 mm"]],
  ).marks,
]);

describe.each(["pdf", "svg"] as const)("%s at 508 dpi", (format) => {
  const path = file(`check-${format}.pdf`);
  let grey: Grey;

  beforeAll(async () => {
    if (format === "pdf") writeFileSync(path, await toPdf({ title: "check", sheets: [squareOnly] }, FONTS));
    else {
      writeFileSync(file("check.svg"), toSvg(squareOnly));
      run("rsvg-convert", "-f", "pdf", "-o", path, file("check.svg"));
    }
    grey = picture(path);
  });

  test("the page is A4", () => {
    const [, width, height] = /Page size:\s+([\d.]+) x ([\d.]+) pts/.exec(run("pdfinfo", path).toString())!;
    expect(Math.abs(Number(width) - (210 * 72) / 25.4)).toBeLessThan(0.02);
    expect(Math.abs(Number(height) - (297 * 72) / 25.4)).toBeLessThan(0.02);
    expect([grey.width, grey.height].map((px) => Math.round(px / PX))).toEqual([210, 297]);
  });

  test("the check square is 100 mm both ways, to 0.1 mm", () => {
    for (const way of ["row", "column"] as const) {
      const found = along(grey, way, (way === "row" ? AT[1] : AT[0]) + 50);
      expect(found).toHaveLength(2);
      expect(Math.abs(found[1]! - 100)).toBeLessThan(0.1);
    }
  });

  test("the marks beyond it are at 4 in both ways, to 0.1 mm", () => {
    for (const way of ["row", "column"] as const) {
      const found = along(grey, way, (way === "row" ? AT[1] : AT[0]) + 6);
      expect(found).toHaveLength(3);
      expect(Math.abs(found[2]! - 101.6)).toBeLessThan(0.1);
    }
  });

  test("it stands where the drawing says", () => {
    const [x] = strokes(grey, "row", Math.round((AT[1] + 50) * PX));
    const [y] = strokes(grey, "column", Math.round((AT[0] + 50) * PX));
    expect(Math.abs(x! / PX - AT[0])).toBeLessThan(0.05);
    expect(Math.abs(y! / PX - AT[1])).toBeLessThan(0.05);
  });
});

describe("PDF", () => {
  test("the check square takes the room that it says", async () => {
    writeFileSync(file("room.pdf"), await toPdf({ title: "room", sheets: [plain(checkSquare(AT))] }, FONTS));
    const [left, top, right, bottom] = inkBox(picture(file("room.pdf"))).map((px) => px / PX) as [
      number,
      number,
      number,
      number,
    ];
    expect(Math.min(left - AT[0], top - AT[1])).toBeGreaterThan(-0.15);
    expect(Math.max(right - AT[0], bottom - AT[1])).toBeLessThanOrEqual(CHECK_SQUARE);
  });

  test("Letter is 8 1/2 × 11 in; each sheet has its own size", async () => {
    const sheets = [plain([line([20, 20], [30, 20])]), { ...plain([line([20, 20], [30, 20])]), ...LETTER }];
    writeFileSync(file("sizes.pdf"), await toPdf({ title: "sizes", sheets }, FONTS));
    const info = run("pdfinfo", "-f", "1", "-l", "2", file("sizes.pdf")).toString();
    expect(info).toMatch(/Page\s+1 size:\s+595\.27\d* x 841\.89 pts \(A4\)/);
    expect(info).toMatch(/Page\s+2 size:\s+612 x 792 pts \(letter\)/);
  });

  test("a check rule is 100 mm and 4 in, across and down", async () => {
    const bare = (way: "across" | "down") =>
      checkRule([20, 20], way).map((mark) =>
        mark.kind === "group"
          ? { ...mark, marks: mark.marks.filter((inner) => inner.kind !== "text") }
          : mark,
      );
    const sheets = [plain(bare("across")), plain(bare("down"))];
    writeFileSync(file("rules.pdf"), await toPdf({ title: "rules", sheets }, FONTS));
    const [across, down] = [picture(file("rules.pdf"), 1), picture(file("rules.pdf"), 2)];
    // 3 mm to either side of the rule only its long ticks reach
    expect(along(across, "row", 21.5).at(-1)).toBeCloseTo(100, 1);
    expect(along(across, "row", 27.5).at(-1)).toBeCloseTo(101.6, 1);
    expect(along(down, "column", 21.5).at(-1)).toBeCloseTo(100, 1);
    expect(along(down, "column", 27.5).at(-1)).toBeCloseTo(101.6, 1);
  });

  test("capitals are as high as their size, and words as wide as the table says", async () => {
    const { textWidth } = await import("../../src/draw/index.ts");
    for (const bold of [false, true]) {
      const sheets = [
        plain([text([20, 100], "H", 20, { bold })]),
        plain([text([20, 100], "HAVAfiToH", 10, { bold })]),
      ];
      writeFileSync(file("caps.pdf"), await toPdf({ title: "caps", sheets }, FONTS));
      const [, top, , bottom] = inkBox(picture(file("caps.pdf"), 1));
      expect(Math.abs((bottom - top) / PX - 20)).toBeLessThan(0.1);
      expect(Math.abs(bottom / PX - 100)).toBeLessThan(0.06);
      // from the stem of the first H to that of the last: the width without the last letter
      const row = strokes(picture(file("caps.pdf"), 2), "row", Math.round(98 * PX));
      const lastStem = row.at(-2)!;
      expect(Math.abs((lastStem - row[0]!) / PX - textWidth("HAVAfiTo", 10, bold))).toBeLessThan(0.06);
    }
  });

  test("words centred or ended on a place are so, and turned words read upward", async () => {
    const at = async (mark: Mark): Promise<readonly number[]> => {
      writeFileSync(file("anchor.pdf"), await toPdf({ title: "anchor", sheets: [plain([mark])] }, FONTS));
      return inkBox(picture(file("anchor.pdf"))).map((px) => px / PX);
    };
    const middle = await at(text([100, 100], "HOH", 10, { anchor: "middle" }));
    expect(Math.abs((middle[0]! + middle[2]!) / 2 - 100)).toBeLessThan(0.06);
    const end = await at(text([100, 100], "H", 10, { anchor: "end" }));
    expect(end[2]).toBeLessThan(100);
    expect(end[2]).toBeGreaterThan(98);
    const up = await at(text([100, 100], "HHH", 10, { rotate: -90 }));
    expect(Math.abs(up[2]! - 100)).toBeLessThan(0.06);
    expect(Math.abs(up[0]! - 90)).toBeLessThan(0.1);
    expect(up[3]).toBeLessThan(100);
  });

  test("circles are round: Ø180 both ways to 0.05 mm, and at 45°", async () => {
    writeFileSync(
      file("round.pdf"),
      await toPdf({ title: "round", sheets: [plain([circle([105, 150], 90, "narrow")])] }, FONTS),
    );
    const grey = picture(file("round.pdf"));
    expect(Math.abs(along(grey, "row", 150)[1]! - 180)).toBeLessThan(0.05);
    expect(Math.abs(along(grey, "column", 105)[1]! - 180)).toBeLessThan(0.05);
    // a chord half way between the two: pdfkit's own quarter curves would be 0.02 off here
    const row = Math.round((150 - 90 * Math.SQRT1_2) * PX);
    const [a, b] = strokes(grey, "row", row);
    const chord = 2 * Math.sqrt(90 ** 2 - (150 - (row + 0.5) / PX) ** 2);
    expect(Math.abs((b! - a!) / PX - chord)).toBeLessThan(0.05);
  });

  test("the words can be found and copied", async () => {
    writeFileSync(file("words.pdf"), await toPdf({ title: "words", sheets: [wordy] }, FONTS));
    const found = run("pdftotext", "-layout", file("words.pdf"), "-").toString();
    for (const word of [
      "Bender card",
      "Ø44.5 × 2.5",
      "12-5/16″",
      "90° ± ½°",
      "office AVATAR",
      "312.5 mm",
      "Größe ČŽ Ж",
    ])
      expect(found).toContain(word);
  });

  test("a tiled curve crosses its join at one height on both sheets", async () => {
    const slope = { width: 300, height: 60, marks: [line([0, 5], [300, 55], "cut")] };
    const sheets = tile(slope, A4, { name: "slope", lie: "portrait" });
    expect(sheets).toHaveLength(2);
    const bare = sheets.map((sheet) => ({
      ...sheet,
      marks: sheet.marks.flatMap((mark) =>
        mark.kind === "group" && (mark.name === "piece" || mark.name === "joins")
          ? [{ ...mark, marks: mark.marks.filter((inner) => inner.kind !== "text") }]
          : [],
      ),
    }));
    writeFileSync(file("tiles.pdf"), await toPdf({ title: "tiles", sheets: bare }, FONTS));
    const heights = bare.map((sheet, i) => {
      const joins = sheet.marks.find((mark) => mark.kind === "group" && mark.name === "joins");
      const ring = joins?.kind === "group" ? joins.marks.find((mark) => mark.kind === "circle") : undefined;
      if (joins?.kind !== "group" || ring?.kind !== "circle") throw new Error("no join");
      const x = joins.at![0] + ring.centre[0];
      // 5 mm to the same side of the join on both, where the join's own strokes do not reach
      const found = strokes(picture(file("tiles.pdf"), i + 1), "column", Math.round((x + 5) * PX));
      expect(found).toHaveLength(1);
      return found[0]! / PX - (joins.at![1] + ring.centre[1]);
    });
    expect(Math.abs(heights[0]! - heights[1]!)).toBeLessThan(0.05);
  });
});

interface Found {
  errors: string[];
  fixes: string[];
  units: number;
  low: Point;
  high: Point;
  headerLow: Point;
  headerHigh: Point;
  layers: string[];
  linetypes: Record<string, string>;
  texts: { text: string; at: Point; align: string; height: number; rotation: number; font: string }[];
  arcs: { from: Point; to: Point }[];
}

/** An F: it shows at once if it is mirrored or stands on its head. */
const F: Point[] = [
  [50, 50],
  [20, 50],
  [20, 110],
  [25, 110],
  [25, 80],
  [40, 80],
];
const drawing = plain([
  polyline(F, "cut"),
  circle([100, 60], 30, "visible"),
  arc([150, 150], 40, 200, 300, "centre"),
  line([20, 280], [190, 200], "hidden"),
  ...hatch([
    [120, 220],
    [180, 220],
    [180, 260],
  ]),
  line([20, 49], [20, 38], "dimension"),
  line([50, 49], [50, 38], "dimension"),
  line([20, 40], [50, 40], "dimension"),
  arrowhead([20, 40], [-1, 0], 2.6),
  arrowhead([50, 40], [1, 0], 2.6),
  text([35, 39], "30.0 mm", 3.5, { anchor: "middle" }),
  text([30, 200], "Ø44.5 × 2.5", 5, { rotate: -90, anchor: "middle", bold: true }),
  group("turned", [text([0, 0], "start", 3.5)], { at: [60, 250], rotate: 30 }),
]);

describe("DXF", () => {
  let found: Found;
  const dxf = toDxf(drawing);

  beforeAll(() => {
    writeFileSync(file("check.dxf"), dxf);
    found = JSON.parse(
      run("/usr/bin/python3", join(import.meta.dirname, "dxf-read.py"), file("check.dxf")).toString(),
    ) as Found;
  });

  test("ezdxf finds nothing to mend, and millimetres", () => {
    expect(found.errors).toEqual([]);
    expect(found.fixes).toEqual([]);
    expect(found.units).toBe(4);
  });

  test("the extents are the drawing's, y up", () => {
    // left and foot: the hidden line and the F; right: the hidden line; top: the dimension at y 40 less its overrun of 2
    const expected = { low: [20, 297 - 280], high: [190, 297 - 30] } as const;
    for (const [name, at] of Object.entries({ low: found.low, headerLow: found.headerLow }))
      expect(Math.hypot(at[0] - expected.low[0], at[1] - expected.low[1]), name).toBeLessThan(1e-3);
    for (const [name, at] of Object.entries({ high: found.high, headerHigh: found.headerHigh }))
      expect(Math.hypot(at[0] - expected.high[0], at[1] - expected.high[1]), name).toBeLessThan(1e-3);
  });

  test("an arc keeps its ends: anticlockwise with y up is clockwise as seen", () => {
    const end = (angle: number): Point => [
      150 + 40 * Math.cos((angle * Math.PI) / 180),
      297 - (150 + 40 * Math.sin((angle * Math.PI) / 180)),
    ];
    expect(found.arcs).toHaveLength(1);
    const [from, to] = [end(300), end(200)];
    expect(Math.hypot(found.arcs[0]!.from[0] - from[0], found.arcs[0]!.from[1] - from[1])).toBeLessThan(1e-9);
    expect(Math.hypot(found.arcs[0]!.to[0] - to[0], found.arcs[0]!.to[1] - to[1])).toBeLessThan(1e-9);
  });

  test("words stand, lean and end as drawn, in their font", () => {
    expect(found.texts).toContainEqual({
      text: "Ø44.5 × 2.5",
      at: [30, 97],
      align: "CENTER",
      height: 5,
      rotation: 90,
      font: "DejaVuSans-Bold.ttf",
    });
    expect(found.texts).toContainEqual({
      text: "start",
      at: [60, 47],
      align: "LEFT",
      height: 3.5,
      rotation: 330,
      font: "DejaVuSans.ttf",
    });
  });

  test("a layer for each kind of line, with its line type", () => {
    expect(found.layers).toEqual([
      "ARROWS",
      "CENTRE",
      "CUT",
      "DIMENSION",
      "HATCH",
      "HIDDEN",
      "TEXT",
      "VISIBLE",
    ]);
    expect(found.linetypes).toMatchObject({ CENTRE: "CENTRE", HIDDEN: "HIDDEN", CUT: "Continuous" });
  });

  test("dxf-parser reads the same: the F is not mirrored", () => {
    const parsed = new DxfParser().parseSync(dxf);
    expect(parsed?.header.$INSUNITS).toBe(4);
    const cut = parsed?.entities.filter((entity) => entity.layer === "CUT") as unknown as {
      vertices: { x: number; y: number }[];
    }[];
    expect(cut).toHaveLength(1);
    expect(cut[0]!.vertices.map(({ x, y }) => [x, y])).toEqual(F.map(([x, y]) => [x, 297 - y]));
    const ring = parsed?.entities.find((entity) => entity.type === "CIRCLE") as unknown as { radius: number };
    expect(ring.radius).toBe(30);
  });

  test("an empty drawing and one for the saw alone are sound too", () => {
    for (const [name, text] of [
      ["empty", toDxf({ width: 10, height: 10, marks: [] })],
      ["cut", toDxf(drawing, { only: ["cut"] })],
    ] as const) {
      writeFileSync(file(`${name}.dxf`), text);
      const code =
        "import ezdxf,sys; d=ezdxf.readfile(sys.argv[1]); print(len(d.audit().errors), len(d.modelspace()))";
      const said = run("/usr/bin/python3", "-c", code, file(`${name}.dxf`))
        .toString()
        .trim();
      expect(said).toBe(name === "empty" ? "0 0" : "0 1");
    }
  });
});
