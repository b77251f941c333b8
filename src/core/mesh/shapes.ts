// biome-ignore-all lint/style/noNonNullAssertion: axes are taken modulo 3; a capsule has one ring at least, and each ring a vertex.
import {
  add,
  along,
  anyPerpendicular,
  cross,
  FORWARD,
  LEFT,
  len,
  ORIGIN,
  type Outline,
  outlineOf,
  PLATE_THICKNESS,
  rejection,
  scale,
  sub,
  unit,
  type Vec,
} from "../space/index.ts";
import { type Mesh, MeshBuilder } from "./mesh.ts";
import { ringFrom, zip } from "./ring.ts";

/** A plate as it is drawn: a plate of the job, and the radius of what is taken for it where it has no size (mm). */
interface DrawnPlate {
  readonly at: Vec;
  readonly normal: Vec;
  readonly size?: readonly [number, number];
  readonly along?: Vec;
  readonly thickness?: number;
  readonly unsized?: number;
}

/** Radius of a plate without a size on which nothing stands yet (mm). */
const BARE = 50;
/** Sides of a round plate. */
const ROUND = 64;

/**
 * A plate as the solid that it is to the cut and the fit: `at` is the middle of the face that the bar is on, `normal`
 * (length 1) points out of that face; its outline (`outlineOf`), as deep as it is thick (mm).
 */
export function plateMesh(plate: DrawnPlate, origin: Vec = ORIGIN): Mesh {
  const normal = unit(plate.normal);
  const outline = outlineOf({ ...plate, normal }, plate.unsized ?? BARE);
  const { thickness = PLATE_THICKNESS } = plate;
  return outline.kind === "disc"
    ? discMesh(plate.at, normal, outline.radius, thickness, origin)
    : boxMesh(plate.at, normal, outline, thickness, origin);
}

function discMesh(at: Vec, n: Vec, radius: number, thickness: number, origin: Vec): Mesh {
  const into = new MeshBuilder(origin);
  const e = anyPerpendicular(n);
  const f = cross(n, e);
  const out = Array.from({ length: ROUND }, (_, i): Vec => {
    const a = (i * 2 * Math.PI) / ROUND;
    return add(scale(e, Math.cos(a)), scale(f, Math.sin(a)));
  });
  const ring = (depth: number, normalOf: (d: Vec) => Vec): number => {
    const first = into.count;
    for (const d of out) into.vertex(along(along(at, d, radius), n, -depth), normalOf(d));
    return first;
  };
  const next = (i: number): number => (i + 1) % ROUND;
  const [top, low] = [ring(0, () => n), ring(thickness, () => scale(n, -1))];
  for (let i = 1; i + 1 < ROUND; i++) into.indices.push(top, top + i, top + i + 1, low, low + i + 1, low + i);
  const [upper, lower] = [ring(0, (d) => d), ring(thickness, (d) => d)];
  for (let i = 0; i < ROUND; i++) {
    const j = next(i);
    into.indices.push(lower + i, lower + j, upper + j, lower + i, upper + j, upper + i);
    into.edge(top + i, top + j);
    into.edge(low + i, low + j);
  }
  return into.finish();
}

function boxMesh(
  at: Vec,
  n: Vec,
  { x, y, half: sides }: Extract<Outline, { kind: "rectangle" }>,
  thickness: number,
  origin: Vec,
): Mesh {
  const into = new MeshBuilder(origin);
  const half: readonly [Vec, Vec, Vec] = [scale(x, sides[0]), scale(y, sides[1]), scale(n, thickness / 2)];
  const middle = sub(at, half[2]);
  for (const axis of [0, 1, 2] as const) {
    for (const side of [1, -1] as const) {
      const out = half[axis];
      const a = half[(axis + 1) % 3]!;
      const b = scale(half[(axis + 2) % 3]!, side);
      const face = along(middle, out, side);
      const normal = scale(unit(out), side);
      const first = into.count;
      for (const p of [
        sub(sub(face, a), b),
        sub(add(face, a), b),
        add(add(face, a), b),
        add(sub(face, a), b),
      ]) {
        into.vertex(p, normal);
      }
      into.indices.push(first, first + 1, first + 2, first, first + 2, first + 3);
      // Each of the box's twelve edges belongs to two faces: the faces of one axis and one edge a face of the next.
      if (axis === 2) for (let i = 0; i < 4; i++) into.edge(first + i, first + ((i + 1) % 4));
      if (axis === 0) {
        into.edge(first + 1, first + 2);
        into.edge(first + 3, first);
      }
    }
  }
  return into.finish();
}

/** A ball (mm). */
export const ballMesh = (centre: Vec, radius: number, origin: Vec = ORIGIN): Mesh =>
  capsuleMesh(centre, centre, radius, origin);

/** A round-ended body of one radius from `from` to `to` (mm). */
export function capsuleMesh(from: Vec, to: Vec, radius: number, origin: Vec = ORIGIN): Mesh {
  const around = 32;
  const steps = 8;
  const into = new MeshBuilder(origin);
  const span = sub(to, from);
  const d: Vec = len(span) > 0 ? unit(span) : [0, 0, 1];
  const e = unit(rejection(Math.abs(d[0]) < 0.6 ? FORWARD : LEFT, d));
  const f = cross(d, e);
  const psi = Array.from({ length: around }, (_, i) => (2 * Math.PI * i) / around);
  const ring = (centre: Vec, lat: number) => {
    const first = into.count;
    for (const p of psi) {
      const flat = add(scale(e, Math.cos(p) * Math.cos(lat)), scale(f, Math.sin(p) * Math.cos(lat)));
      const out = along(flat, d, Math.sin(lat));
      into.vertex(along(centre, out, radius), out);
    }
    return ringFrom(first, psi);
  };
  const pole = (centre: Vec, side: 1 | -1): number => {
    into.vertex(along(centre, d, side * radius), scale(d, side));
    return into.count - 1;
  };
  const south = pole(from, -1);
  const rings = [];
  for (let k = 1 - steps; k <= 0; k++) rings.push(ring(from, (k / steps) * (Math.PI / 2)));
  // A ball has one equator, a longer body two.
  for (let k = len(span) > 0 ? 0 : 1; k < steps; k++) rings.push(ring(to, (k / steps) * (Math.PI / 2)));
  const north = pole(to, 1);
  const low = rings[0]!.ids[0]!;
  const high = rings[rings.length - 1]!.ids[0]!;
  for (let i = 0; i < around; i++) {
    const j = (i + 1) % around;
    into.indices.push(south, low + j, low + i, north, high + i, high + j);
  }
  for (let i = 0; i + 1 < rings.length; i++) zip(into.indices, rings[i]!, rings[i + 1]!, false);
  return into.finish();
}
