import type { Writer } from "../core/findings/index.ts";

/** How the shop reads numbers: a Writer, and finer ones for gaps and diameters. */
export interface ShopWriter extends Writer {
  /** Gaps, offsets, walls: hundredths of a millimetre, thousandths of an inch. */
  readonly fine: (mm: number) => string;
  /** Diameters: tenths of a millimetre, thousandths of an inch. */
  readonly size: (mm: number) => string;
}
