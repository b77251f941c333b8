// biome-ignore-all lint/style/noNonNullAssertion: a segment has six numbers, and n is the number of segments; places are walked two by two by their own length.
import { BufferAttribute, BufferGeometry, Mesh, type ShaderMaterial } from "three";

/** Numbers a vertex has in each attribute of a line. Which corner of its strip it is, its number tells. */
export const LINE_SIZES = { from: 3, to: 3, span: 2 } as const;
const VERTICES = 4;
const INDICES = 6;

/** Indices of the strips of so many segments. */
function stripIndices(segments: number): Uint32Array {
  const pattern = new Uint32Array(INDICES * segments);
  for (let i = 0, v = 0; i < pattern.length; i += INDICES, v += VERTICES)
    pattern.set([v, v + 1, v + 2, v, v + 2, v + 3], i);
  return pattern;
}

/** The same for many bodies one after the other: those of the longest so far begin with those of any other. */
export class Strips {
  private longest = stripIndices(256);
  of(segments: number): Uint32Array {
    if (this.longest.length < INDICES * segments) this.longest = stripIndices(2 * segments);
    return this.longest.subarray(0, INDICES * segments);
  }
}

/**
 * Line segments (x, y, z of two places each, shifted by `by`) as vertices of strips. A pattern counts from the first
 * segment on along all that follow, so that a polyline's dashes run through. Four plain vertices a segment: with one
 * instance a segment, drawing without a graphics card took five times as long.
 */
export function lineRows(
  segments: Float32Array,
  by: readonly [number, number, number] = [0, 0, 0],
): Readonly<Record<keyof typeof LINE_SIZES, Float32Array>> {
  const n = segments.length / 6;
  const count = VERTICES * n;
  const from = new Float32Array(3 * count);
  const to = new Float32Array(3 * count);
  const span = new Float32Array(2 * count);
  let s = 0;
  for (let i = 0; i < n; i++) {
    const ax = segments[6 * i]! + by[0];
    const ay = segments[6 * i + 1]! + by[1];
    const az = segments[6 * i + 2]! + by[2];
    const bx = segments[6 * i + 3]! + by[0];
    const bY = segments[6 * i + 4]! + by[1];
    const bz = segments[6 * i + 5]! + by[2];
    const begins = s;
    s += Math.hypot(bx - ax, bY - ay, bz - az);
    for (let v = VERTICES * i; v < VERTICES * (i + 1); v++) {
      from[3 * v] = ax;
      from[3 * v + 1] = ay;
      from[3 * v + 2] = az;
      to[3 * v] = bx;
      to[3 * v + 1] = bY;
      to[3 * v + 2] = bz;
      span[2 * v] = begins;
      span[2 * v + 1] = s;
    }
  }
  return { from, to, span };
}

/** Line segments as a body of their own. */
export function lineObject(segments: Float32Array, material: ShaderMaterial): Mesh {
  const rows = lineRows(segments);
  const geometry = new BufferGeometry();
  for (const name of ["from", "to", "span"] as const) {
    geometry.setAttribute(name, new BufferAttribute(rows[name], LINE_SIZES[name]));
  }
  geometry.setIndex(new BufferAttribute(stripIndices(segments.length / 6), 1));
  const mesh = new Mesh(geometry, material);
  // Its attributes do not say by the usual name where it lies.
  mesh.frustumCulled = false;
  return mesh;
}

/** Segments through a row of places. */
export function chained(places: readonly (readonly [number, number, number])[]): Float32Array {
  const out: number[] = [];
  for (let i = 0; i + 1 < places.length; i++) out.push(...places[i]!, ...places[i + 1]!);
  return Float32Array.from(out);
}
