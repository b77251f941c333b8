import { cut, type Leaf } from "./clip.ts";
import { oneLine } from "./lettering.ts";
import { type Placement, placed } from "./place.ts";
import type { Arc, Circle, Drawing, Mark, Polyline, Text } from "./types.ts";

/** A mark in the frame of the sheet; `within` names the groups that hold it, "outer/inner". */
export type Primitive = Leaf & { readonly within: string };

export interface Sink {
  polyline(mark: Polyline, within: string): void;
  circle(mark: Circle, within: string): void;
  arc(mark: Arc, within: string): void;
  text(mark: Text, within: string): void;
}

/** Hands every mark to the sink in drawing order, placed on the sheet and cut to the clips. */
export function walk(drawing: Pick<Drawing, "marks">, sink: Sink): void {
  for (const { mark, within } of flatten(drawing.marks)) {
    const path = within.join("/");
    if (mark.kind === "polyline") sink.polyline(mark, path);
    else if (mark.kind === "circle") sink.circle(mark, path);
    else if (mark.kind === "arc") sink.arc(mark, path);
    else sink.text({ ...mark, text: oneLine(mark.text) }, path);
  }
}

interface Found {
  readonly mark: Leaf;
  readonly within: readonly string[];
}

/** From the inside out, so that each clip is a plain rectangle in the frame of its own group. */
function flatten(marks: readonly Mark[]): Found[] {
  return marks.flatMap((mark): Found[] => {
    if (mark.kind !== "group") return drawable(mark) ? [{ mark, within: [] }] : [];
    const { clip } = mark;
    const where: Placement = { at: mark.at ?? [0, 0], rotate: mark.rotate ?? 0 };
    return flatten(mark.marks).flatMap(({ mark: leaf, within }) =>
      (clip ? cut(leaf, clip) : [leaf]).map((piece) => ({
        mark: place(piece, where),
        within: [mark.name, ...within],
      })),
    );
  });
}

function place(mark: Leaf, where: Placement): Leaf {
  switch (mark.kind) {
    case "polyline":
      return { ...mark, points: mark.points.map((p) => placed(p, where)) };
    case "circle":
      return { ...mark, centre: placed(mark.centre, where) };
    case "arc":
      return {
        ...mark,
        centre: placed(mark.centre, where),
        from: mark.from + where.rotate,
        to: mark.to + where.rotate,
      };
    case "text":
      return { ...mark, at: placed(mark.at, where), rotate: (mark.rotate ?? 0) + where.rotate };
  }
}

/** A mark without numbers would print as a hole in the sheet that nobody notices: stop loudly. */
function drawable(mark: Leaf): boolean {
  const numbers =
    mark.kind === "polyline"
      ? mark.points.flat()
      : mark.kind === "text"
        ? [...mark.at, mark.size, mark.rotate ?? 0]
        : mark.kind === "circle"
          ? [...mark.centre, mark.radius]
          : [...mark.centre, mark.radius, mark.from, mark.to];
  if (!numbers.every(Number.isFinite)) throw new Error(`a ${mark.kind} has a coordinate that is no number`);
  if ((mark.kind === "polyline" || mark.kind === "circle") && !mark.line && !mark.fill)
    throw new Error(`a ${mark.kind} has neither line nor fill`);
  if (mark.kind === "text") return mark.text.trim() !== "";
  if (mark.kind === "polyline") return mark.points.length > 1;
  return mark.radius > 0;
}
