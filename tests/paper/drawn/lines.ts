import type { Stroke, Word } from "../read-pdf.ts";

/** Lines as drawn are true to this (mm): PDF writes hundredths of a point and less. */
export const DRAWN = 0.03;
export const SHADE = /^0\.87/;

export interface Seen {
  faults: string[];
  /** Words whose figures are read off their place on the sheet, not off a label. */
  held: Set<Word>;
  /** Figures read so. */
  read: string[];
}

export const nothing = (): Seen => ({ faults: [], held: new Set(), read: [] });
export const near = (a: number, b: number, by = DRAWN): boolean => Math.abs(a - b) <= by;
export const box = (s: Stroke) => {
  const xs = s.points.map((p) => p[0]);
  const ys = s.points.map((p) => p[1]);
  return { x0: Math.min(...xs), x1: Math.max(...xs), y0: Math.min(...ys), y1: Math.max(...ys) };
};
export const isRect = (s: Stroke): boolean => s.closed && !s.curved && s.points.length === 4;
export const upright = (s: Stroke): boolean =>
  s.points.length === 2 && !s.curved && near(s.points[0]![0], s.points[1]![0], 1e-3);
export const thick = (s: Stroke, width: number): boolean => s.stroked && near(s.width, width, 0.01);
