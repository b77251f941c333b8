import { placeAt } from "../../bar/index.ts";
import type { Job, Plate } from "../../job/types.ts";
import type { ResolvedBar } from "../../layout/types.ts";
import type { Outline } from "../../space/index.ts";
import { halfExtent } from "../../tube/index.ts";
import { type Body, bodyOf, driverObstacles } from "./body.ts";
import type { Gate } from "./gate.ts";
import type { Obstacle } from "./scene.ts";
import { slabOf } from "./slab.ts";

/** A plate that a bar is on, as `platesUnder` of the layout finds it. */
export interface PlateUnder {
  readonly id: string;
  readonly plate: Plate;
  readonly outline: Outline;
}

/** A plate as the solid that it is: its outline (see outlineOf), as deep as it is thick. */
export const plateObstacle = ({ id, plate, outline }: PlateUnder): Obstacle & { readonly kind: "plate" } => ({
  id,
  kind: "plate",
  slab: slabOf(plate.at, plate.normal, outline, plate.thickness),
});

/**
 * What stands in a car besides its bars: the plates that bars stand on, the body (see bodyOf), the driver's room, and
 * the floor at z = 0 unless a bar itself reaches below it. With the roof off, what comes off with it is left out.
 */
export function partsOf(
  job: Job,
  bars: readonly ResolvedBar[],
  plates: readonly PlateUnder[],
): {
  readonly parts: (roofOff: boolean) => readonly Obstacle[];
  readonly gates: readonly Gate[];
  readonly body: Body;
} {
  const body = bodyOf(job.body);
  const lowest = Math.min(0, ...bars.map(lowestOf));
  const fixed: Obstacle[] = [
    ...plates.map(plateObstacle),
    ...(job.driver ? driverObstacles(job.driver) : []),
  ];
  if (lowest > -BELOW) fixed.push({ id: "floor", kind: "floor", z: 0 });
  const on = [...fixed, ...body.parts.map((p) => p.obstacle)];
  const off = [...fixed, ...body.parts.filter((p) => !p.roof).map((p) => p.obstacle)];
  return { parts: (roofOff) => (roofOff ? off : on), gates: body.gates, body };
}

/** A bar that reaches less far below 0 than this (mm) stands on the floor. */
const BELOW = 0.5;

/** The height of a bar's lowest point (mm), its ends cut square; on a plate, the plate's. */
function lowestOf({ centreline: c, tube, seat }: ResolvedBar): number {
  const r = halfExtent(tube);
  const ends = (["A", "B"] as const).map((end) => {
    const at = seat[end];
    if (at.kind === "plate") return at.at[2];
    const { at: place, dir } = placeAt(c, end === "A" ? 0 : c.length);
    return place[2] - r * Math.sqrt(Math.max(0, 1 - dir[2] ** 2));
  });
  return Math.min(...ends, ...c.bends.map((b) => b.corner[2] - r));
}
