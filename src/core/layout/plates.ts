import { placeAt } from "../bar/index.ts";
import type { Job, Plate } from "../job/types.ts";
import { dist, dot, type Outline, outlineOf, unsizedRadius } from "../space/index.ts";
import { extent } from "../tube/index.ts";
import type { ResolvedBar } from "./types.ts";

/** A plate as it is in the car, with its outline. */
export interface PlaceOfPlate {
  readonly id: string;
  readonly plate: Plate;
  readonly outline: Outline;
  /** Whether its sides are known: it has a size. */
  readonly isSized: boolean;
}

/** Two plates nearer together than this are one (mm). */
const SAME = 0.01;

/**
 * The plates that bars stand on, each once, by name. A mirrored bar stands on the mirror image of its original's plate:
 * that is a plate which the job lists there, else "ID, other side". One without a size is as large as the bar on it
 * that asks for most needs it (`unsizedRadius`).
 */
export function platesUnder(plates: Job["plates"], bars: readonly ResolvedBar[]): readonly PlaceOfPlate[] {
  const found = new Map<string, { readonly plate: Plate; unsized: number }>();
  for (const bar of bars) {
    for (const end of ["A", "B"] as const) {
      const seat = bar.seat[end];
      if (seat.kind !== "plate") continue;
      const { kind: _, plate: named, ...here } = seat;
      const listed = (id: string): boolean => {
        const plate = plates[id];
        return (
          plate !== undefined && dist(plate.at, here.at) < SAME && dot(plate.normal, here.normal) > 0.999
        );
      };
      const id = listed(named) ? named : (Object.keys(plates).find(listed) ?? `${named}, other side`);
      const { dir } = placeAt(bar.centreline, end === "A" ? 0 : bar.centreline.length);
      const unsized = unsizedRadius(extent(bar.tube), dot(dir, here.normal));
      const kept = found.get(id);
      if (kept) kept.unsized = Math.max(kept.unsized, unsized);
      else found.set(id, { plate: plates[id] ?? here, unsized });
    }
  }
  return [...found].map(([id, { plate, unsized }]) => ({
    id,
    plate,
    outline: outlineOf(plate, unsized),
    isSized: plate.size !== undefined,
  }));
}
