/**
 * The demo's cards as they come out of the printer: the check square and the wraps measured on the pixels of poppler
 * (PDF) and librsvg (SVG), the same sizes read back by dxf-parser and ezdxf (DXF).
 */
import { mkdtempSync, writeFileSync } from "node:fs";
import { tmpdir } from "node:os";
import { join } from "node:path";
import DxfParser from "dxf-parser";
import { beforeAll, describe, expect, test } from "vitest";
import { type CardFile, cardFiles, printJob, TO_MAKE, wrapCard } from "../../src/cards/index.ts";
import { record } from "../../src/draw/sinks/record.ts";
import { type Grey, strokes } from "../pgm.ts";
import { run } from "../programs.ts";
import { FONTS, PX, picture } from "../rendering.ts";
import { demo, said } from "../support/cards.ts";

const DIR = mkdtempSync(join(tmpdir(), "tubewright-cards-"));
const file = (name: string): string => join(DIR, name);
const plan = demo();
const files = new Map(cardFiles(plan, { paper: "A4" }).map((f) => [f.name, f]));

async function written(name: string): Promise<string> {
  const made = await (files.get(name) as CardFile).make(FONTS);
  const path = file(name.replaceAll("/", "_"));
  writeFileSync(path, made);
  return path;
}

/** What the wrap must measure, from the tube alone: π (40 + 0.1). */
const GIRTH = Math.PI * 40.1;
const { cope } = plan.byId.get("pillar-bar-left")!.copes.A;
const outer = [...cope.outer];
/** The base line below the long point, as the wrap itself says it. */
const BASE = Number(
  /Base line ([\d.]+) mm in/.exec(said(wrapCard(plan, "pillar-bar-left", "A")!.sheets))![1],
);
const SWING = Math.max(...outer) - Math.min(...outer);

/** Middles of the strokes along a row of pixels, mm. */
const row = (grey: Grey, y: number): number[] =>
  strokes(grey, "row", Math.round(y * PX)).map((at) => at / PX);
const column = (grey: Grey, x: number): number[] =>
  strokes(grey, "column", Math.round(x * PX)).map((at) => at / PX);

describe("the bar's PDF, as poppler draws it", () => {
  let path: string;
  /** Pages as a person finds them, by their words. */
  let page: Readonly<Record<"wraps" | "square", number>>;
  let grey: Grey;
  const { sheets } = printJob(plan, {
    paper: "A4",
    job: [],
    bars: ["pillar-bar-left"],
    sheets: TO_MAKE,
  }).document;

  beforeAll(async () => {
    path = await written("bars/pillar-bar-left.pdf");
    const said = run("pdftotext", "-raw", path, "-").toString().replaceAll("\n", " ").split("\f");
    const find = (words: RegExp): number => said.findIndex((one) => words.test(one)) + 1;
    page = {
      wraps: find(/Wraps for [^—]* — Pillar bar, left,\s+ends A and B/),
      square: find(/Measure from corner 0/),
    };
    expect(said.filter((one) => one.trim() !== "")).toHaveLength(sheets.length);
    expect(page.wraps * page.square).toBeGreaterThan(0);
    grey = picture(path, file("wrap-page"), page.wraps);
  }, 60_000);

  test("A4, and the card says whose it is", () => {
    expect(run("pdfinfo", path).toString()).toMatch(/\(A4\)/);
    const words = run("pdftotext", "-layout", "-f", "1", "-l", "1", path, "-").toString();
    expect(words).toContain("Bender card — Pillar bar, left");
  });

  test("the check square: 100 mm and 4 in both ways, to 0.2 mm", () => {
    // where it stands is the drawing's to say; how large it is, the picture's
    const placed = sheets[page.square - 1]!.marks.find(
      (mark) => mark.kind === "group" && mark.name === "check square",
    );
    if (placed?.kind !== "group") throw new Error("no check square");
    const [x, y] = placed.at!;
    const grey = picture(path, file("square-page"), page.square);
    for (const [found, from] of [
      [row(grey, y + 15), x],
      [column(grey, x + 15), y],
    ] as const) {
      const sides = found.filter((at) => at > from - 1 && at < from + 103);
      expect(sides).toHaveLength(2);
      expect(Math.abs(sides[0]! - from)).toBeLessThan(0.2);
      expect(Math.abs(sides[1]! - sides[0]! - 100)).toBeLessThan(0.2);
    }
    for (const [found, from] of [
      [row(grey, y + 7), x],
      [column(grey, x + 7), y],
    ] as const) {
      const marks = found.filter((at) => at > from - 1 && at < from + 102.5);
      expect(Math.abs(marks.at(-1)! - marks[0]! - 101.6)).toBeLessThan(0.2);
    }
  });

  test("both wraps of a page: girth, line 0 to line 360, is π (OD + paper), and their heights, to 0.2 mm", () => {
    const papers = record(sheets[page.wraps - 1]!).flatMap((mark) =>
      mark.kind === "polyline" && mark.closed && mark.line === "narrow" && mark.within.endsWith("/wrap")
        ? [mark.points.map(([, y]) => y)]
        : [],
    );
    expect(papers).toHaveLength(2);
    for (const ys of papers) {
      const [top, foot] = [Math.min(...ys), Math.max(...ys)];
      // a millimetre below the top of the wrap: its sides, quarter lines and hatching
      const left = row(grey, top + 1).find((x) => x > 11)!;
      const found = row(grey, top + 1).filter((x) => x >= left);
      const end = found.find((x) => Math.abs(x - left - GIRTH) < 1);
      expect(end).toBeDefined();
      expect(Math.abs(end! - left - GIRTH)).toBeLessThan(0.2);
      // down the tab past line 360: from the paper's edge to the base line
      const tab = column(grey, left + GIRTH + 2);
      const [high, low] = [top, foot].map((y) =>
        tab.reduce((a, b) => (Math.abs(b - y) < Math.abs(a - y) ? b : a)),
      );
      expect(Math.abs(low! - high! - (foot - top))).toBeLessThan(0.2);
    }
  });
});

describe("the wrap as SVG, as librsvg draws it", () => {
  test("girth, and the height of the cut edge at four places, to 0.2 mm", async () => {
    const svg = await written("wraps/pillar-bar-left-A.svg");
    run("rsvg-convert", "-f", "pdf", "-o", file("wrap.pdf"), svg);
    const grey = picture(file("wrap.pdf"), file("wrap-svg"));
    // just above the wrap's base line, with the check square below it
    const base = 12 + BASE;
    const uprights = row(grey, base - 0.8).filter((x) => x < GIRTH + 2);
    expect(Math.abs(Math.max(...uprights) - GIRTH)).toBeLessThan(0.2);
    // clear of hatching there is none above the edge, so the edge is the stroke nearest to where it must be
    for (const phi of [45, 135, 225, 300]) {
      const x = (phi / 360) * GIRTH;
      const want = 12 + cope.outer[phi]! - cope.least;
      const off = column(grey, x).map((y) => Math.abs(y - want));
      expect(Math.min(...off)).toBeLessThan(0.2);
    }
  });
});

describe("the check square of the files, in true size", () => {
  // 4 mm of air below the wrap's foot, which is 12 mm of waste and the base line's distance below the top
  const top = 12 + BASE + 4;

  test("SVG, as librsvg draws it: 100 mm and 4 in, both ways, to 0.2 mm", async () => {
    const svg = await written("wraps/pillar-bar-left-A.svg");
    run("rsvg-convert", "-f", "pdf", "-o", file("square.pdf"), svg);
    const grey = picture(file("square.pdf"), file("square-svg"));
    for (const found of [row(grey, top + 15), column(grey, 15).map((y) => y - top)]) {
      const sides = found.filter((at) => at > -1 && at < 101);
      expect(sides.length).toBe(2);
      expect(Math.abs(sides[1]! - sides[0]! - 100)).toBeLessThan(0.2);
    }
    for (const found of [row(grey, top + 7), column(grey, 7).map((y) => y - top)]) {
      const marks = found.filter((at) => at > -1 && at < 103);
      expect(Math.abs(marks.at(-1)! - marks[0]! - 101.6)).toBeLessThan(0.2);
    }
  });

  test("DXF: dxf-parser and ezdxf both find a closed square of 100 mm, and the marks at 4 in from its corner", async () => {
    const path = await written("wraps/pillar-bar-left-A.dxf");
    const text = String(files.get("wraps/pillar-bar-left-A.dxf")!.make(FONTS));
    const entities = new DxfParser().parseSync(text)!.entities as unknown as {
      type: string;
      vertices?: { x: number; y: number }[];
    }[];
    const size = (e: { vertices?: { x: number; y: number }[] }): [number, number] => {
      const [xs, ys] = [e.vertices!.map((v) => v.x), e.vertices!.map((v) => v.y)];
      return [Math.max(...xs) - Math.min(...xs), Math.max(...ys) - Math.min(...ys)];
    };
    const square = entities.filter(
      (e) => e.vertices?.length === 4 && size(e).every((s) => Math.abs(s - 100) < 0.01),
    );
    expect(square).toHaveLength(1);
    const left = Math.min(...square[0]!.vertices!.map((v) => v.x));
    const high = Math.max(...square[0]!.vertices!.map((v) => v.y));
    const lines = entities.filter((e) => e.type === "LINE").map((e) => e.vertices!);
    const at = (p: number, q: number): boolean => Math.abs(p - q) < 0.001;
    expect(lines.some(([a, b]) => at(a!.x, left + 101.6) && at(b!.x, left + 101.6))).toBe(true);
    expect(lines.some(([a, b]) => at(a!.y, high - 101.6) && at(b!.y, high - 101.6))).toBe(true);
    const code = [
      "import ezdxf,sys",
      "d=ezdxf.readfile(sys.argv[1])",
      "s=[[v for v in e.get_points('xy')] for e in d.modelspace() if e.dxftype()=='LWPOLYLINE' and e.closed]",
      "w=[(max(x for x,y in p)-min(x for x,y in p), max(y for x,y in p)-min(y for x,y in p)) for p in s]",
      "print(len(d.audit().errors), d.units, sum(1 for a,b in w if abs(a-100)<.01 and abs(b-100)<.01))",
    ].join("\n");
    expect(run("/usr/bin/python3", "-c", code, path).toString().trim()).toBe("0 4 1");
  });
});

describe("the wrap as DXF", () => {
  let dxf: string;
  beforeAll(async () => {
    dxf = await written("wraps/pillar-bar-left-A.dxf");
  });

  test("dxf-parser: millimetres; the cut is as wide as the girth and swings as the cope does", () => {
    const text = String(files.get("wraps/pillar-bar-left-A.dxf")!.make(FONTS));
    const parsed = new DxfParser().parseSync(text);
    expect(parsed?.header.$INSUNITS).toBe(4);
    const cut = parsed?.entities.filter((entity) => entity.layer === "CUT") as unknown as {
      vertices: { x: number; y: number }[];
    }[];
    expect(cut).toHaveLength(1);
    const xs = cut[0]!.vertices.map((v) => v.x);
    const ys = cut[0]!.vertices.map((v) => v.y);
    expect(Math.max(...xs) - Math.min(...xs)).toBeCloseTo(GIRTH, 3);
    expect(Math.abs(Math.max(...ys) - Math.min(...ys) - SWING)).toBeLessThan(0.01);
    // y runs up and outward: the vertex at φ = 90° stands lower than the long point by what the cope says
    const at = (phi: number): number => cut[0]!.vertices[2 * phi]!.y;
    expect(at(344) - at(90)).toBeCloseTo(cope.outer[90]! - cope.outer[344]!, 3);
  });

  test("ezdxf: sound, millimetres, the same sizes", () => {
    const code = [
      "import ezdxf,sys",
      "d=ezdxf.readfile(sys.argv[1])",
      "c=[e for e in d.modelspace() if e.dxf.layer=='CUT']",
      "p=[v for e in c for v in e.get_points('xy')]",
      "print(len(d.audit().errors), d.units, len(c), max(x for x,y in p)-min(x for x,y in p), max(y for x,y in p)-min(y for x,y in p))",
    ].join("\n");
    const [errors, units, count, wide, swing] = run("/usr/bin/python3", "-c", code, dxf)
      .toString()
      .trim()
      .split(" ")
      .map(Number);
    expect([errors, units, count]).toEqual([0, 4, 1]);
    expect(wide).toBeCloseTo(GIRTH, 3);
    expect(Math.abs(swing! - SWING)).toBeLessThan(0.01);
  });
});

test("the overview prints on A4, and in Letter too", async () => {
  for (const [paper, size] of [
    ["A4", /841\.89 x 595\.2\d+ pts \(A4\)/],
    ["Letter", /792 x 612 pts \(letter\)/],
  ] as const) {
    const [first] = cardFiles(plan, { paper });
    writeFileSync(file("overview.pdf"), await first!.make(FONTS));
    expect(run("pdfinfo", file("overview.pdf")).toString()).toMatch(size);
  }
});
