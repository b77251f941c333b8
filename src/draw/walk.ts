import type { Arc, Circle, Drawing, Polyline, Text } from "./types.ts";

/** A mark in the frame of the sheet; `within` names the groups that hold it, "outer/inner". */
export type Primitive = (Polyline | Circle | Arc | Text) & { readonly within: string };

export interface Sink {
  polyline(mark: Polyline, within: string): void;
  circle(mark: Circle, within: string): void;
  arc(mark: Arc, within: string): void;
  text(mark: Text, within: string): void;
}

/** Hands every mark to the sink in drawing order, placed on the sheet and cut to the clips. */
export function walk(_drawing: Drawing, _sink: Sink): void {
  throw new Error("being written");
}
