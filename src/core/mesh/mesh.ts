import type { Vec } from "../space/index.ts";

/** A closed surface of triangles, counter-clockwise seen from outside, and the lines that a drawing shows of it. */
export interface Mesh {
  /** What was subtracted from every place before it became a 32-bit number (mm, car axes). */
  readonly origin: Vec;
  /** x, y, z of every vertex, less the origin (mm). A place is listed anew where the surface has an edge. */
  readonly positions: Float32Array;
  /** One outward direction a vertex. */
  readonly normals: Float32Array;
  readonly indices: Uint32Array;
  /** Line segments, two places each, less the origin (mm). */
  readonly edges: Float32Array;
}

/** Gathers vertices and triangles; places go in in car axes and come out less the origin. */
export class MeshBuilder {
  readonly positions: number[] = [];
  readonly normals: number[] = [];
  readonly indices: number[] = [];
  readonly edges: number[] = [];
  readonly origin: Vec;

  constructor(origin: Vec) {
    this.origin = origin;
  }

  get count(): number {
    return this.positions.length / 3;
  }

  vertex(p: Vec, n: Vec): void {
    const o = this.origin;
    this.positions.push(p[0] - o[0], p[1] - o[1], p[2] - o[2]);
    this.normals.push(n[0], n[1], n[2]);
  }

  /** The place of a vertex, less the origin. */
  placed(i: number): Vec {
    const p = this.positions;
    return [p[3 * i]!, p[3 * i + 1]!, p[3 * i + 2]!];
  }

  edge(i: number, j: number): void {
    this.edges.push(...this.placed(i), ...this.placed(j));
  }

  finish(): Mesh {
    return {
      origin: this.origin,
      positions: Float32Array.from(this.positions),
      normals: Float32Array.from(this.normals),
      indices: Uint32Array.from(this.indices),
      edges: Float32Array.from(this.edges),
    };
  }
}
