import { NO_LENGTH } from "../numeric/index.ts";
import { add, along, cross, dot, len, scale, sub, type Vec } from "../space/index.ts";

/** Where a point may be as far as one reading knows. `normal` has length 1 or near it; normal · x = offset. */
export type Plane = { readonly kind: "plane"; readonly normal: Vec; readonly offset: number };
export type Sphere = { readonly kind: "sphere"; readonly centre: Vec; readonly radius: number };
export type Surface = Plane | Sphere;

/** Two directions nearer to one line than this (sine) do not cross. */
const PARALLEL = 1e-4;

/**
 * Where three surfaces meet: none where they do not cross, one place for three planes, else two (the same twice where
 * a sphere is just missed: then the place nearest to it).
 * Formula: two spheres meet in the plane in which |x − c₁|² − r₁² = |x − c₂|² − r₂² (their radical plane).
 */
export function meet(surfaces: readonly [Surface, Surface, Surface]): readonly Vec[] {
  const spheres = surfaces.filter((s) => s.kind === "sphere");
  const planes = surfaces.filter((s) => s.kind === "plane");
  const [first, ...more] = spheres;
  if (!first) return threePlanes(planes as readonly Plane[]);
  for (const sphere of more) {
    const radical = radicalPlane(first, sphere);
    if (!radical) return [];
    planes.push(radical);
  }
  const [a, b] = planes;
  if (!a || !b) return [];
  const dir = cross(a.normal, b.normal);
  const sine = len(dir);
  if (sine < PARALLEL) return [];
  // On both planes, and from there to the foot of the sphere's centre on their line.
  const on = scale(
    add(scale(cross(b.normal, dir), a.offset), scale(cross(dir, a.normal), b.offset)),
    1 / (sine * sine),
  );
  const unitDir = scale(dir, 1 / sine);
  const foot = along(on, unitDir, dot(sub(first.centre, on), unitDir));
  const half = Math.sqrt(Math.max(0, first.radius ** 2 - len(sub(foot, first.centre)) ** 2));
  return [along(foot, unitDir, half), along(foot, unitDir, -half)];
}

function radicalPlane(a: Sphere, b: Sphere): Plane | undefined {
  const v = sub(b.centre, a.centre);
  const distance = len(v);
  if (!(distance > NO_LENGTH)) return undefined;
  const normal = scale(v, 1 / distance);
  const offset = dot(normal, a.centre) + (distance + (a.radius ** 2 - b.radius ** 2) / distance) / 2;
  return { kind: "plane", normal, offset };
}

function threePlanes(planes: readonly Plane[]): readonly Vec[] {
  const [a, b, c] = planes;
  if (!a || !b || !c) return [];
  const [bc, ca, ab] = [cross(b.normal, c.normal), cross(c.normal, a.normal), cross(a.normal, b.normal)];
  const volume = dot(a.normal, bc);
  if (Math.abs(volume) < PARALLEL) return [];
  return [scale(along(along(scale(bc, a.offset), ca, b.offset), ab, c.offset), 1 / volume)];
}
