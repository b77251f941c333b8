import type { Leaf } from "../clip.ts";
import type { Drawing } from "../types.ts";
import { type Primitive, walk } from "../walk.ts";

/** What was drawn, in order, in millimetres of the sheet: for tests. */
export function record(drawing: Pick<Drawing, "marks">): Primitive[] {
  const out: Primitive[] = [];
  const keep = (mark: Leaf, within: string): void => {
    out.push({ ...mark, within });
  };
  walk(drawing, { polyline: keep, circle: keep, arc: keep, text: keep });
  return out;
}
