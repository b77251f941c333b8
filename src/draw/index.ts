export { arc, circle, group, line, polygon, polyline, rectangle, text } from "./build.ts";
export { textWidth } from "./lettering.ts";
export type { Paper } from "./paper.ts";
export { A4, LETTER, landscape } from "./paper.ts";
export * from "./parts/index.ts";
export type { DxfOptions } from "./sinks/dxf.ts";
export { toDxf } from "./sinks/dxf.ts";
export type { PdfOptions } from "./sinks/pdf.ts";
export { toPdf } from "./sinks/pdf.ts";
export { toSvg } from "./sinks/svg.ts";
export type { TileOptions } from "./tile.ts";
export { tile, tileCount } from "./tile.ts";
export type {
  Anchor,
  Arc,
  Circle,
  Document,
  Drawing,
  Fill,
  Fonts,
  Group,
  LineKind,
  Mark,
  Placed,
  Point,
  Polyline,
  Rect,
  Sheet,
  Text,
} from "./types.ts";
export type { Primitive, Sink } from "./walk.ts";
