import type { JobDocument } from "../model/document/index.ts";

/** A job with nothing in it but an allowance at the ends: without any, the first notch cut wrong costs the bar. */
export const emptyJob = (name: string, length: "mm" | "in"): JobDocument => ({
  format: "tubewright job",
  version: 2,
  name,
  show: { length, fraction: 16 },
  tubes: {},
  bars: {},
  shop: { trim: length === "mm" ? 30 : "1 1/4 in", example: ["trim"] },
});
