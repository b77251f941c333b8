import type { Paper } from "../paper.ts";
import type { Mark, Rect } from "../types.ts";

export interface TitleBlock {
  readonly title: string;
  /** Label and value, in the order in which they are read: ["Bar", "Harness"], ["Hand", "left"], ["Revision", "3"]… */
  readonly fields: readonly (readonly [label: string, value: string])[];
  /** Cautions or other small print, wrapped under the fields. */
  readonly note?: string;
}

/** Frame inside the safe margin and a title block along its foot; `inside` is the room left for the drawing. */
export function frame(
  _paper: Paper,
  _block: TitleBlock,
): { readonly marks: readonly Mark[]; readonly inside: Rect } {
  throw new Error("being written");
}
