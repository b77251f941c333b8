import { createHash } from "node:crypto";
import { mkdtempSync, readFileSync, writeFileSync } from "node:fs";
import { createRequire } from "node:module";
import { tmpdir } from "node:os";
import { join } from "node:path";
import { pathToFileURL } from "node:url";
import { build } from "esbuild";
import { expect, test } from "vitest";
import {
  A4,
  arc,
  circle,
  type Document,
  group,
  line,
  polygon,
  sheetFrame,
  text,
  toDxf,
  toPdf,
  toSvg,
} from "../index.ts";
import { num } from "./number.ts";

const find = createRequire(import.meta.url).resolve;
const font = (name: string): Uint8Array => new Uint8Array(readFileSync(find(`dejavu-fonts-ttf/ttf/${name}`)));
const FONTS = { regular: font("DejaVuSans.ttf"), bold: font("DejaVuSans-Bold.ttf") };

const sheet = {
  name: "Card <1> & co",
  width: 210,
  height: 297,
  marks: [
    ...sheetFrame(A4, { title: "Card", fields: [["Tube", "Ø44.5 × 2.5"]] }).marks,
    line([20, 20], [120, 20], "hidden"),
    circle([60, 60], 12.5, "visible", "shade"),
    arc([60, 60], 20, 350, 10, "centre"),
    polygon(
      [
        [20, 100],
        [40, 100],
        [30, 110],
      ],
      undefined,
      "ink",
    ),
    group("turned", [text([0, 0], 'a < b & "c" ½', 3.5, { bold: true, anchor: "middle" })], {
      at: [100, 150],
      rotate: -90,
    }),
  ],
};
const doc: Document = { title: "Cards – größer", sheets: [sheet, { ...sheet, name: "2" }] };
const latin = (bytes: Uint8Array): string => Buffer.from(bytes).toString("latin1");

test("numbers in files: ten-thousandths, no minus zero, no exponent", () => {
  expect([0, -0, -0.00001, 1e-7, 12.5, 100, -3.25, 1 / 3, 1e6].map(num)).toEqual([
    "0",
    "0",
    "0",
    "0",
    "12.5",
    "100",
    "-3.25",
    "0.3333",
    "1000000",
  ]);
});

test("SVG: millimetres, classes by purpose, words escaped", () => {
  const svg = toSvg(sheet);
  expect(svg).toContain('width="210mm" height="297mm" viewBox="0 0 210 297"');
  expect(svg).toContain("<title>Card &lt;1&gt; &amp; co</title>");
  expect(svg).toContain("a &lt; b &amp; &quot;c&quot; ½</text>");
  expect(svg).toContain('<path d="M20 20L120 20" class="hidden" fill="none"');
  expect(svg).toContain('transform="rotate(-90 100 150)"');
});

test("PDF: the same drawing gives the same bytes, and not the same as another drawing", async () => {
  for (const compress of [true, false]) {
    const [a, b] = [await toPdf(doc, FONTS, { compress }), await toPdf(doc, FONTS, { compress })];
    expect(latin(a)).toBe(latin(b));
    expect(latin(await toPdf({ ...doc, title: "Other" }, FONTS, { compress }))).not.toBe(latin(a));
  }
});

test("PDF: asks not to be scaled in printing; says its version and no date of today", async () => {
  const pdf = latin(await toPdf(doc, FONTS, { compress: false }));
  expect(pdf).toContain("/PrintScaling /None");
  expect(pdf).toContain("/Version /1.7");
  expect(pdf).toContain("D:20000101000000Z");
  expect(pdf.match(/D:\d{8}/g)).toEqual(["D:20000101"]);
});

test("PDF: an empty document is refused", async () => {
  await expect(toPdf({ title: "none", sheets: [] }, FONTS)).rejects.toThrow("at least one sheet");
});

test("PDF: what a browser would run gives the same uncompressed bytes as Node", async () => {
  const bundle = await build({
    entryPoints: [find("../index.ts")],
    bundle: true,
    format: "esm",
    platform: "browser",
    write: false,
    logLevel: "silent",
    metafile: true,
  });
  const inputs = Object.keys(bundle.metafile.inputs);
  expect(inputs.some((path) => path.includes("pdfkit.browser"))).toBe(true);
  const path = join(mkdtempSync(join(tmpdir(), "tubewright-browser-")), "draw.mjs");
  writeFileSync(path, bundle.outputFiles[0]!.contents);
  const room = (await import(/* @vite-ignore */ pathToFileURL(path).href)) as {
    toPdf: typeof toPdf;
  };
  const [node, browser] = [
    await toPdf(doc, FONTS, { compress: false }),
    await room.toPdf(doc, FONTS, { compress: false }),
  ];
  expect(browser.length).toBe(node.length);
  expect(createHash("sha256").update(browser).digest("hex")).toBe(
    createHash("sha256").update(node).digest("hex"),
  );
});

test("DXF: only the lines asked for, and no words with them", () => {
  const all = toDxf(sheet);
  for (const layer of ["VISIBLE", "HIDDEN", "CENTRE", "TEXT", "ARROWS", "FRAME"])
    expect(all).toContain(`\n${layer}\n`);
  const hidden = toDxf(sheet, { only: ["hidden"] });
  for (const layer of ["VISIBLE", "CENTRE", "TEXT", "ARROWS", "FRAME"])
    expect(hidden).not.toContain(`\n${layer}\n`);
  expect(hidden).toContain("\nHIDDEN\n");
  expect(toDxf(sheet, { only: ["hidden"], text: true })).toContain("\nTEXT\n");
  expect(toDxf(sheet)).toBe(all);
});
