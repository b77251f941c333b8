import type { Job } from "../job/types.ts";
import { add, anySquare, cross, scale, type Vec } from "../space/index.ts";
import { chainThrough } from "./chain.ts";
import type { Facet, Obstacle } from "./scene.ts";
import { facet } from "./scene.ts";

/** A plate as a round of its size: as wide as its diagonal, since a job does not say how its sides lie. */
export function plateObstacle(
  id: string,
  at: Vec,
  normal: Vec,
  size: readonly [number, number] | undefined,
): Obstacle {
  const radius = size ? Math.hypot(size[0], size[1]) / 2 : 75;
  const e = anySquare(normal);
  const f = cross(normal, e);
  const corners = Array.from({ length: 24 }, (_, i) => {
    const a = (i * Math.PI) / 12;
    return add(at, add(scale(e, radius * Math.cos(a)), scale(f, radius * Math.sin(a))));
  });
  return { id, kind: "plate", facets: facets([corners]), at, normal, radius };
}

export const facets = (polygons: readonly (readonly Vec[])[]): readonly Facet[] =>
  polygons.flatMap((p) => facet(p) ?? []);

export function driverObstacles(driver: NonNullable<Job["driver"]>): readonly Obstacle[] {
  const out: Obstacle[] = [];
  const { hip, shoulder, torsoRadius, helmet, helmetRadius } = driver;
  if (hip && shoulder && torsoRadius) {
    out.push({ id: "driver", kind: "driver", chain: chainThrough([hip, shoulder], torsoRadius) });
  }
  if (helmet && helmetRadius) {
    out.push({ id: "driver's helmet", kind: "driver", chain: chainThrough([helmet], helmetRadius) });
  }
  return out;
}
