import { BufferAttribute, BufferGeometry, Mesh, type ShaderMaterial } from "three";

/** Indices and corner coordinates of one strip: across −1 or 1, along 0 or 1. */
const CORNERS = [
  [-1, 0],
  [1, 0],
  [1, 1],
  [-1, 1],
] as const;
const INDICES_EACH = 6;

/**
 * Line segments (x, y, z of two places each) as strips of a width in pixels. Their pattern counts from the first
 * segment on along all that follow, so that a polyline's dashes run through. Four plain vertices a segment: with one
 * instance a segment, drawing without a graphics card took five times as long.
 */
export function lineObject(segments: Float32Array, material: ShaderMaterial): Mesh {
  const n = segments.length / 6;
  const corner = new Float32Array(12 * n);
  const from = new Float32Array(12 * n);
  const to = new Float32Array(12 * n);
  const span = new Float32Array(8 * n);
  const index = new Uint32Array(INDICES_EACH * n);
  let s = 0;
  for (let i = 0; i < n; i++) {
    const a = segments.subarray(6 * i, 6 * i + 3);
    const b = segments.subarray(6 * i + 3, 6 * i + 6);
    const begins = s;
    s += Math.hypot(b[0]! - a[0]!, b[1]! - a[1]!, b[2]! - a[2]!);
    CORNERS.forEach(([across, along], k) => {
      const v = 4 * i + k;
      corner[3 * v] = across;
      corner[3 * v + 1] = along;
      from.set(a, 3 * v);
      to.set(b, 3 * v);
      span[2 * v] = begins;
      span[2 * v + 1] = s;
    });
    index.set([4 * i, 4 * i + 1, 4 * i + 2, 4 * i, 4 * i + 2, 4 * i + 3], INDICES_EACH * i);
  }
  const geometry = new BufferGeometry();
  geometry.setAttribute("position", new BufferAttribute(corner, 3));
  geometry.setAttribute("from", new BufferAttribute(from, 3));
  geometry.setAttribute("to", new BufferAttribute(to, 3));
  geometry.setAttribute("span", new BufferAttribute(span, 2));
  geometry.setIndex(new BufferAttribute(index, 1));
  const mesh = new Mesh(geometry, material);
  // Its corners say nothing of where it lies.
  mesh.frustumCulled = false;
  return mesh;
}

/** Draws only the first so many segments. */
export function drawFirst(lines: Mesh, segments: number): void {
  lines.geometry.setDrawRange(0, INDICES_EACH * segments);
}

/** Segments through a row of places. */
export function chained(places: readonly (readonly [number, number, number])[]): Float32Array {
  const out: number[] = [];
  for (let i = 0; i + 1 < places.length; i++) out.push(...places[i]!, ...places[i + 1]!);
  return Float32Array.from(out);
}
