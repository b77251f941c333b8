import type { MadeVerdict } from "../../../core/made/index.ts";
import { CHANGE_BAND, MADE_CHANGED, MOVED, sayMade, small } from "../../../words/index.ts";
import type { Write } from "../../kit/index.ts";
import type { KeptChange, Moved, Moves } from "../../model/state/index.ts";

/** What the last step did to one bar. */
export interface Touched {
  readonly id: string;
  readonly label: string;
  readonly moved?: Moved;
  /** What becomes of it, where it is made already. */
  readonly made?: MadeVerdict | "lost" | "gone";
  /** Whether it is there to be taken in hand. */
  readonly isThere: boolean;
}

/** Every bar that the last step touched, once: those made already first, gravest first; then by how much they change. */
export function touchedBy(moves: Moves, changed: KeptChange): readonly Touched[] {
  const { bars, lost, gone, labels } = changed;
  const made = new Map<string, MadeVerdict | "lost" | "gone">([
    ...lost.map((id) => [id, "lost"] as const),
    ...bars.map((v) => [v.bar, v] as const),
    ...gone.map((id) => [id, "gone"] as const),
  ]);
  const moved = new Map(moves.bars.map((m) => [m.id, m]));
  return [...new Set([...made.keys(), ...moved.keys()])].map((id) => {
    const [to, by] = [made.get(id), moved.get(id)];
    return {
      id,
      label: by?.label ?? labels[id] ?? id,
      ...(by ? { moved: by } : {}),
      ...(to ? { made: to } : {}),
      isThere: by?.how !== "gone" && to !== "gone",
    };
  });
}

/** What changed of one bar: how far it went, its length, and what that does to it where it is made. */
export function sayTouched({ moved, made }: Touched, write: Write): string {
  const lines: string[] = [];
  if (moved?.by !== undefined && moved.by >= 0.05) lines.push(CHANGE_BAND.moved(write.fine(moved.by)));
  if (moved) lines.push(MOVED.bar(moved, write, lines.length > 0));
  if (made === "lost") lines.push(small(MADE_CHANGED.lost));
  else if (made === "gone") lines.push(small(MADE_CHANGED.gone));
  else if (made) lines.push(`${made.step}: ${sayMade(made, write)}`);
  return lines.join("; ");
}
