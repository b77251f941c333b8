import type { JobDocument } from "../model/document/index.ts";

/** A job with nothing in it. */
export const emptyJob = (name: string, length: "mm" | "in"): JobDocument => ({
  format: "tubewright job",
  version: 2,
  name,
  show: { length, fraction: 16 },
  tubes: {},
  bars: {},
});
