import { DxfWriter, LWPolylineFlags, point3d, TextHorizontalAlignment, Units } from "@tarikjabiri/dxf";
import { wrap360 } from "../../core/numeric/index.ts";
import { endOf } from "../clip.ts";
import { LINES } from "../lines.ts";
import type { Anchor, Drawing, Fill, LineKind, Point, Text } from "../types.ts";
import { walk } from "../walk.ts";

export interface DxfOptions {
  /** Keep these kinds of line only, and no lettering unless `text` says so (for a machine that follows lines). */
  readonly only?: readonly LineKind[];
  /** Keep the lettering (true, or false when `only` is given). */
  readonly text?: boolean;
}

const LETTERING = "TEXT";
const ARROWS = "ARROWS";
const BLACK_OR_WHITE = 7;

/**
 * DXF (R2007, UTF-8) in millimetres ($INSUNITS 4). The origin is the drawing's lower left corner and y runs up, so
 * that it reads as the sheet does. A layer for each kind of line, named by it (VISIBLE, CUT…), TEXT for lettering.
 * Black fills without a line (arrowheads) become their outline on ARROWS; grey and white fills are left out.
 */
export function toDxf(drawing: Drawing, options: DxfOptions = {}): string {
  const { only, text = only === undefined } = options;
  const dxf = new DxfWriter();
  dxf.setUnits(Units.Millimeters);
  dxf.setVariable("$MEASUREMENT", { 70: 1 });
  const layers = new Set<string>();
  const layer = (name: string, kind?: LineKind): { layerName: string } => {
    if (!layers.has(name)) dxf.addLayer(name, BLACK_OR_WHITE, lineType(dxf, kind));
    layers.add(name);
    return { layerName: name };
  };
  const wanted = (kind?: LineKind): kind is LineKind => kind !== undefined && (only?.includes(kind) ?? true);
  /** Where a closed or open outline goes; undefined: it is left out. */
  const layerOf = (kind?: LineKind, fill?: Fill): { layerName: string } | undefined => {
    if (kind === undefined) return fill === "ink" && !only ? layer(ARROWS) : undefined;
    return wanted(kind) ? layer(kind.toUpperCase(), kind) : undefined;
  };
  const up = ([x, y]: Point): Point => [x, drawing.height - y];
  const extent = new Extent();

  walk(drawing, {
    polyline({ points, closed, line, fill }) {
      const where = layerOf(line, fill);
      if (!where) return;
      const path = points.map(up);
      for (const p of path) extent.add(p);
      const [a, b] = path;
      if (a && b && path.length === 2) dxf.addLine(point3d(...a), point3d(...b), where);
      else
        dxf.addLWPolyline(
          path.map(([x, y]) => ({ point: { x, y } })),
          { ...where, flags: closed ? LWPolylineFlags.Closed : LWPolylineFlags.None },
        );
    },
    circle({ centre, radius, line, fill }) {
      const where = layerOf(line, fill);
      if (!where) return;
      const [x, y] = up(centre);
      extent.add([x - radius, y - radius]);
      extent.add([x + radius, y + radius]);
      dxf.addCircle(point3d(x, y), radius, where);
    },
    arc(mark) {
      if (!wanted(mark.line)) return;
      const [x, y] = up(mark.centre);
      // clockwise as seen becomes anticlockwise, so the ends change places
      const [from, to] = [wrap360(-endOf(mark)), wrap360(-mark.from)];
      for (const a of [mark.from, endOf(mark), ...quarters(mark.from, endOf(mark))])
        extent.add([
          x + mark.radius * Math.cos((a * Math.PI) / 180),
          y - mark.radius * Math.sin((a * Math.PI) / 180),
        ]);
      dxf.addArc(point3d(x, y), mark.radius, from, to, layer(mark.line.toUpperCase(), mark.line));
    },
    text(mark) {
      if (text) lettering(dxf, mark, up(mark.at), layer(LETTERING));
    },
  });
  extent.write(dxf);
  return dxf.stringify();
}

const ALIGN: Readonly<Record<Anchor, TextHorizontalAlignment>> = {
  start: TextHorizontalAlignment.Left,
  middle: TextHorizontalAlignment.Center,
  end: TextHorizontalAlignment.Right,
};

/** DXF's text height is that of the capitals, as ours is. */
function lettering(dxf: DxfWriter, mark: Text, [x, y]: Point, where: { layerName: string }): void {
  const written = dxf.addText(point3d(x, y), mark.size, mark.text, {
    ...where,
    rotation: wrap360(-(mark.rotate ?? 0)),
    horizontalAlignment: ALIGN[mark.anchor ?? "start"],
    secondAlignmentPoint: point3d(x, y),
  });
  written.textStyle = style(dxf, mark.bold ?? false);
}

function style(dxf: DxfWriter, bold: boolean): string {
  const name = bold ? "DEJAVU-BOLD" : "DEJAVU";
  const table = dxf.tables.styleTable;
  if (!table.records.some((record) => record.name === name))
    table.addStyle(name).fontFileName = bold ? "DejaVuSans-Bold.ttf" : "DejaVuSans.ttf";
  return name;
}

function lineType(dxf: DxfWriter, kind?: LineKind): string {
  const { dash } = kind ? LINES[kind] : { dash: [] };
  if (!kind || dash.length === 0) return "Continuous";
  const elements = dash.map((length, i) => (i % 2 === 0 ? length : -length));
  return dxf.addLType(kind.toUpperCase(), `${kind} line`, elements).name;
}

/** The quarter turns within an arc, where it may stand out furthest. */
function quarters(from: number, to: number): number[] {
  const out: number[] = [];
  for (let a = Math.ceil(from / 90) * 90; a <= to; a += 90) out.push(a);
  return out;
}

/** The box round all lines, for the header: a reader zooms to it. */
class Extent {
  #low: Point = [Number.POSITIVE_INFINITY, Number.POSITIVE_INFINITY];
  #high: Point = [Number.NEGATIVE_INFINITY, Number.NEGATIVE_INFINITY];

  add([x, y]: Point): void {
    this.#low = [Math.min(this.#low[0], x), Math.min(this.#low[1], y)];
    this.#high = [Math.max(this.#high[0], x), Math.max(this.#high[1], y)];
  }

  write(dxf: DxfWriter): void {
    if (this.#low[0] > this.#high[0]) return;
    dxf.setVariable("$EXTMIN", { 10: this.#low[0], 20: this.#low[1], 30: 0 });
    dxf.setVariable("$EXTMAX", { 10: this.#high[0], 20: this.#high[1], 30: 0 });
  }
}
