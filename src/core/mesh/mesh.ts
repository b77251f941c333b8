// biome-ignore-all lint/style/noNonNullAssertion: vertices are asked for by the IDs that push handed out, three numbers each.
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

/** Numbers, three at a time, in a typed row that grows: lists of boxed numbers took most of a mesh's time. */
export class Triples {
  private row = new Float64Array(6144);
  private used = 0;

  /** How many triples. */
  get count(): number {
    return this.used / 3;
  }

  push(x: number, y: number, z: number): void {
    if (this.used === this.row.length) {
      const longer = new Float64Array(2 * this.row.length);
      longer.set(this.row);
      this.row = longer;
    }
    this.row[this.used] = x;
    this.row[this.used + 1] = y;
    this.row[this.used + 2] = z;
    this.used += 3;
  }

  at(i: number): Vec {
    return [this.row[3 * i]!, this.row[3 * i + 1]!, this.row[3 * i + 2]!];
  }

  /** Adds one triple of a row again, of this row or another. */
  pushFrom(from: Triples, i: number): void {
    this.push(from.row[3 * i]!, from.row[3 * i + 1]!, from.row[3 * i + 2]!);
  }

  floats(): Float32Array {
    return new Float32Array(this.row.subarray(0, this.used));
  }
}

/** Gathers vertices and triangles; places go in in car axes and come out less the origin. */
export class MeshBuilder {
  readonly positions = new Triples();
  readonly normals = new Triples();
  readonly indices: number[] = [];
  /** Two places a segment. */
  readonly edges = new Triples();
  readonly origin: Vec;

  constructor(origin: Vec) {
    this.origin = origin;
  }

  get count(): number {
    return this.positions.count;
  }

  vertex(p: Vec, n: Vec): void {
    const o = this.origin;
    this.positions.push(p[0] - o[0], p[1] - o[1], p[2] - o[2]);
    this.normals.push(n[0], n[1], n[2]);
  }

  /** The place of a vertex, less the origin. */
  placed(i: number): Vec {
    return this.positions.at(i);
  }

  edge(i: number, j: number, edges = this.edges): void {
    edges.pushFrom(this.positions, i);
    edges.pushFrom(this.positions, j);
  }

  finish(): Mesh {
    return {
      origin: this.origin,
      positions: this.positions.floats(),
      normals: this.normals.floats(),
      indices: new Uint32Array(this.indices),
      edges: this.edges.floats(),
    };
  }
}
