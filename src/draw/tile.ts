import type { Paper } from "./paper.ts";
import type { Drawing, Sheet } from "./types.ts";

export interface TileOptions {
  readonly name: string;
  /** One line that every sheet carries: bar, hand, revision. */
  readonly foot?: string;
  /** mm that two neighbours share (15). */
  readonly overlap?: number;
  /** Left out: whichever way takes fewer sheets. */
  readonly lie?: "portrait" | "landscape";
}

/** The drawing at true size over as many sheets as it needs, with lettered join lines and check rules both ways. */
export function tile(_drawing: Drawing, _paper: Paper, _options: TileOptions): Sheet[] {
  throw new Error("being written");
}
