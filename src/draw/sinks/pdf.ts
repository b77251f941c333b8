import PDFDocument from "pdfkit";
import { endOf } from "../clip.ts";
import { CAP_PER_EM, textWidth } from "../lettering.ts";
import { FILLS, INK, LINES } from "../lines.ts";
import { onCircle } from "../place.ts";
import type { Arc, Document, Fill, Fonts, LineKind, Sheet, Text } from "../types.ts";
import { walk } from "../walk.ts";
import { leanFont } from "./lean-font.ts";

export interface PdfOptions {
  /** Deflate the pages (true). False gives the same bytes in Node and in a browser. */
  readonly compress?: boolean;
}

/** pdfkit insists on a date; a drawing has none, and the file's id is a digest of it. */
const NO_DATE = new Date(Date.UTC(2000, 0, 1));

type Pdf = PDFKit.PDFDocument;

/** PDF's unit is 1/72 in (ISO 32000-1, 8.3.2.3). */
const POINTS = 72 / 25.4;

/** Widths in the table are those without kerning and ligatures; an object switches features off (pdfkit 0.20). */
const PLAIN = { kern: false, liga: false } as unknown as PDFKit.Mixins.OpenTypeFeatures[];

/**
 * A page per sheet at true size, the fonts embedded. Asks the viewer not to scale when printing
 * (ISO 32000-1, table 150, PrintScaling). A fixed date and no random id: the same drawing gives the same bytes.
 */
export async function toPdf(document: Document, fonts: Fonts, options: PdfOptions = {}): Promise<Uint8Array> {
  if (document.sheets.length === 0) throw new Error("a document needs at least one sheet");
  const pdf = open(document.title, fonts, options);
  const bytes = collect(pdf);
  for (const sheet of document.sheets) page(pdf, sheet);
  pdf.end();
  return bytes;
}

/** Fonts as pdfkit has parsed them: it takes them again as they are, and parsing them is most of a short document. */
const parsed = new WeakMap<Uint8Array, object>();

function open(title: string, fonts: Fonts, options: PdfOptions): Pdf {
  const regular = parsed.get(fonts.regular) ?? leanFont(fonts.regular);
  const pdf = new PDFDocument({
    autoFirstPage: false,
    compress: options.compress ?? true,
    // without it pdfkit looks for Helvetica, which its browser build does not carry; the type is older than that
    font: regular as unknown as string,
    info: { Title: title, Creator: "Tubewright", Producer: "Tubewright", CreationDate: NO_DATE },
  });
  pdf.registerFont("regular", regular as Buffer);
  pdf.registerFont("bold", (parsed.get(fonts.bold) ?? leanFont(fonts.bold)) as Buffer);
  for (const name of ["regular", "bold"] as const) {
    const { _font } = pdf.font(name) as unknown as { _font: { font: object } };
    parsed.set(fonts[name], _font.font);
  }
  const catalog = pdf as unknown as { _root: { data: Record<string, unknown> } };
  // the file's version is said here, because pdfkit adds a dated block of metadata when told a version above 1.3
  catalog._root.data.Version = "1.7";
  catalog._root.data.ViewerPreferences = pdf.ref({
    DisplayDocTitle: true,
    PrintScaling: "None",
    PickTrayByPDFSize: true,
  });
  return pdf;
}

function collect(pdf: Pdf): Promise<Uint8Array> {
  return new Promise((resolve, reject) => {
    const chunks: Uint8Array[] = [];
    pdf.on("data", (chunk: Uint8Array) => chunks.push(chunk));
    pdf.on("error", reject);
    pdf.on("end", () => {
      const bytes = new Uint8Array(chunks.reduce((sum, chunk) => sum + chunk.length, 0));
      let at = 0;
      for (const chunk of chunks) {
        bytes.set(chunk, at);
        at += chunk.length;
      }
      resolve(bytes);
    });
  });
}

function page(pdf: Pdf, sheet: Sheet): void {
  pdf.addPage({ size: [sheet.width * POINTS, sheet.height * POINTS], margin: 0 });
  pdf.scale(POINTS);
  pdf.lineJoin("round");
  walk(sheet, {
    polyline({ points, closed, line, fill }) {
      points.forEach(([x, y], i) => {
        if (i === 0) pdf.moveTo(x, y);
        else pdf.lineTo(x, y);
      });
      if (closed) pdf.closePath();
      paint(pdf, line, fill);
    },
    circle({ centre, radius, line, fill }) {
      curve(pdf, { kind: "arc", centre, radius, from: 0, to: 360, line: line ?? "visible" });
      pdf.closePath();
      paint(pdf, line, fill);
    },
    arc(mark) {
      curve(pdf, mark);
      paint(pdf, mark.line);
    },
    text: (mark) => text(pdf, mark),
  });
}

/** Bézier pieces of at most 30°, k = 4/3 tan(θ/4): off the circle by 4e-7 of its radius (pdfkit's own 90°: 3e-4). */
function curve(pdf: Pdf, mark: Arc): void {
  const { centre, radius, from } = mark;
  const to = endOf(mark);
  const pieces = Math.max(1, Math.ceil((to - from) / 30));
  const step = (to - from) / pieces;
  const k = (4 / 3) * Math.tan((step * Math.PI) / 720);
  let [x, y] = onCircle(centre, radius, from);
  pdf.moveTo(x, y);
  for (let i = 1; i <= pieces; i++) {
    const [nx, ny] = onCircle(centre, radius, from + i * step);
    // the tangent at a place on the circle is its radius turned a quarter
    const [c1x, c1y] = [x - k * (y - centre[1]), y + k * (x - centre[0])];
    const [c2x, c2y] = [nx + k * (ny - centre[1]), ny - k * (nx - centre[0])];
    pdf.bezierCurveTo(c1x, c1y, c2x, c2y, nx, ny);
    [x, y] = [nx, ny];
  }
}

function paint(pdf: Pdf, line?: LineKind, fill?: Fill): void {
  if (line) {
    const { width, dash } = LINES[line];
    pdf.lineWidth(width);
    if (dash.length > 0) pdf.dash(dash as unknown as number, {});
    else pdf.undash();
  }
  if (line && fill) pdf.fillAndStroke(FILLS[fill], INK);
  else if (line) pdf.stroke(INK);
  else if (fill) pdf.fill(FILLS[fill]);
}

function text(pdf: Pdf, mark: Text): void {
  const [x, y] = mark.at;
  const width = textWidth(mark.text, mark.size, mark.bold);
  const back = mark.anchor === "middle" ? width / 2 : mark.anchor === "end" ? width : 0;
  pdf.save();
  if (mark.rotate) pdf.rotate(mark.rotate, { origin: [x, y] });
  pdf.font(mark.bold ? "bold" : "regular").fontSize(mark.size / CAP_PER_EM);
  pdf.fillColor(INK);
  pdf.text(mark.text, x - back, y, { lineBreak: false, baseline: "alphabetic", features: PLAIN });
  pdf.restore();
}
