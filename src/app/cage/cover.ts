// biome-ignore-all lint/style/noNonNullAssertion: cells are counted within the grid's own rows, and lines are walked two places at a time.
import { type Box, within } from "./thin.ts";

/** Cells this wide and high (CSS pixels). */
const CELL = 8;

/** A place of a line in the picture (CSS pixels), how far back it is and how far the body reaches round it (CSS pixels). */
export interface Lying {
  readonly x: number;
  readonly y: number;
  readonly depth: number;
  readonly reach: number;
}

/** What is in front at each place of the picture, roughly: for names, which are to lie beside bars and point at what is seen. */
export class Cover {
  private readonly columns: number;
  private readonly rows: number;
  /** Who is in front in a cell, counted from 1; 0: no one. */
  private readonly who: Uint16Array;
  private readonly depth: Float32Array;

  constructor([width, height]: readonly [number, number]) {
    this.columns = Math.ceil(width / CELL);
    this.rows = Math.ceil(height / CELL);
    this.who = new Uint16Array(this.columns * this.rows);
    this.depth = new Float32Array(this.columns * this.rows).fill(Infinity);
  }

  /** A round body along a line; `who` counts from 1. */
  add(who: number, line: readonly Lying[]): void {
    for (let i = 0; i + 1 < line.length; i++) {
      const [a, b] = [line[i]!, line[i + 1]!];
      const reach = Math.max(a.reach, b.reach) + CELL / 2;
      const within = this.clipped(a, b, reach);
      if (!within) continue;
      const [from, to] = within;
      const steps = Math.max(
        1,
        Math.ceil(((to - from) * Math.hypot(b.x - a.x, b.y - a.y)) / Math.max(CELL, reach)),
      );
      for (let k = 0; k <= steps; k++) this.stamp(who, mixed(a, b, from + ((to - from) * k) / steps));
    }
  }

  /** Who is in front at a place; 0: no one. */
  at(x: number, y: number): number {
    const [column, row] = [Math.floor(x / CELL), Math.floor(y / CELL)];
    if (column < 0 || row < 0 || column >= this.columns || row >= this.rows) return 0;
    return this.who[row * this.columns + column]!;
  }

  /** How many cells under a box are taken. */
  under({ x, y, width, height }: Box): number {
    let n = 0;
    const [left, right] = [
      Math.max(0, Math.floor(x / CELL)),
      Math.min(this.columns - 1, Math.floor((x + width) / CELL)),
    ];
    const low = Math.min(this.rows - 1, Math.floor((y + height) / CELL));
    for (let row = Math.max(0, Math.floor(y / CELL)); row <= low; row++) {
      for (let column = left; column <= right; column++) {
        if (this.who[row * this.columns + column] !== 0) n++;
      }
    }
    return n;
  }

  private stamp(who: number, { x, y, depth, reach }: Lying): void {
    // A little more than it is, so that nothing of it lies in a cell that counts as free.
    const r = reach + CELL / 2;
    const [left, right] = [
      Math.max(0, Math.floor((x - r) / CELL)),
      Math.min(this.columns - 1, Math.floor((x + r) / CELL)),
    ];
    const [top, low] = [
      Math.max(0, Math.floor((y - r) / CELL)),
      Math.min(this.rows - 1, Math.floor((y + r) / CELL)),
    ];
    for (let row = top; row <= low; row++) {
      for (let column = left; column <= right; column++) {
        const cell = row * this.columns + column;
        if (depth >= this.depth[cell]!) continue;
        const [dx, dy] = [(column + 0.5) * CELL - x, (row + 0.5) * CELL - y];
        if (dx * dx + dy * dy > r * r) continue;
        this.depth[cell] = depth;
        this.who[cell] = who;
      }
    }
  }

  /** Which part of a segment (0 to 1) can reach into the picture; undefined: none. */
  private clipped(a: Lying, b: Lying, reach: number): readonly [number, number] | undefined {
    const seen = within(
      a,
      b,
      { x: -reach, y: -reach },
      { x: this.columns * CELL + reach, y: this.rows * CELL + reach },
    );
    return seen && seen[0] < seen[1] ? seen : undefined;
  }
}

/** Between two of them, `t` (0 to 1) of the way. */
export const mixed = (a: Lying, b: Lying, t: number): Lying => ({
  x: a.x + t * (b.x - a.x),
  y: a.y + t * (b.y - a.y),
  depth: a.depth + t * (b.depth - a.depth),
  reach: a.reach + t * (b.reach - a.reach),
});
