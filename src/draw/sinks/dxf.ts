import type { Drawing, LineKind } from "../types.ts";

export interface DxfOptions {
  /** Keep these kinds of line only, and no lettering unless `text` (for a machine that follows lines). */
  readonly only?: readonly LineKind[];
  readonly text?: boolean;
}

/** Millimetres, y up, a layer for each kind of line and one for lettering. */
export function toDxf(_drawing: Drawing, _options: DxfOptions = {}): string {
  throw new Error("being written");
}
