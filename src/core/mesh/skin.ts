// biome-ignore-all lint/style/noNonNullAssertion: rings, stops and lines are made one from another, an entry each; deepest has one entry an end; indices round a ring are taken modulo its size.
import { cross, len, scale, sub, type Vec } from "../space/index.ts";
import type { MeshBuilder } from "./mesh.ts";
import { depthAt, type RimLine } from "./rim.ts";
import { type Ring, ringFrom, thinned, zip } from "./ring.ts";
import type { Carried } from "./spine.ts";

/** A tube in the making. */
export interface Making {
  readonly into: MeshBuilder;
  readonly stations: number[];
  /** Triangles of the coarse surface. */
  readonly far: number[];
  readonly axesAt: (s: number) => Carried;
  /** Developed length (mm). */
  readonly length: number;
  /** The lines of the curves at A and B. */
  readonly rims: readonly [readonly RimLine[], readonly RimLine[]];
}

/** A station (mm) where a ring goes round; `isFar` where the coarse surface has it too. */
export interface Stop {
  readonly s: number;
  readonly isFar: boolean;
}

/** One line in so many is the coarse surface's. */
export const THIN = 4;

/** The rims' many lines end in a ring this far behind them (mm): long thin triangles are dear to draw. */
const CLEAR = 4;

/** One wall from rim to rim, fine and coarse; returns the rings of its two rims. */
export function skin(
  making: Making,
  wall: "outer" | "bore",
  radius: number,
  bends: readonly Stop[],
  around: number,
): readonly [Ring, Ring] {
  const { into, axesAt, length, rims } = making;
  const face = wall === "outer" ? 1 : -1;
  const { origin, positions, normals } = into;
  const put = ({ at, e, f }: Carried, s: number, psi: number): void => {
    const c = Math.cos(psi);
    const d = Math.sin(psi);
    const x = c * e[0] + d * f[0];
    const y = c * e[1] + d * f[1];
    const z = c * e[2] + d * f[2];
    positions.push(
      at[0] + radius * x - origin[0],
      at[1] + radius * y - origin[1],
      at[2] + radius * z - origin[2],
    );
    normals.push(face * x, face * y, face * z);
    making.stations.push(s);
  };
  const rimRing = (end: 0 | 1): Ring => {
    const first = into.count;
    for (const l of rims[end]) {
      const s = end === 0 ? l[wall] : length - l[wall];
      put(axesAt(s), s, l.psi);
    }
    const psi = rims[end].map((l) => l.psi);
    return ringFrom(first, psi);
  };
  const psi = Array.from({ length: around }, (_, i) => (2 * Math.PI * i) / around);
  const deepest = rims.map((lines) => Math.max(...lines.map((l) => l[wall])));
  const ring = (s: number): Ring => {
    const first = into.count;
    const whole = axesAt(s);
    const isClear = s > deepest[0]! && s < length - deepest[1]!;
    for (const p of psi) {
      if (isClear) put(whole, s, p);
      else {
        // Where the rim reaches past this station the ring follows the rim.
        const from = depthAt(rims[0], wall, p);
        const to = length - depthAt(rims[1], wall, p);
        const held = Math.min(Math.max(s, from), Math.max(from, to));
        put(held === s ? whole : axesAt(held), held, p);
      }
    }
    return ringFrom(first, psi);
  };
  const start = rimRing(0);
  const stops = withEndRings(bends, deepest[0]! + CLEAR, length - deepest[1]! - CLEAR);
  const rings = stops.map((stop) => ring(stop.s));
  const finish = rimRing(1);
  const flip = wall === "bore";
  band(into.indices, [start, ...rings, finish], flip);
  const farRings = rings.filter((_, i) => stops[i]!.isFar).map((r) => thinned(r, (k) => k % THIN === 0));
  band(making.far, [coarse(start, rims[0]), ...farRings, coarse(finish, rims[1])], flip);
  return [start, finish];
}

function withEndRings(bends: readonly Stop[], first: number, last: number): readonly Stop[] {
  if (first >= last) return bends;
  // A bend that reaches into a rim keeps its rings there.
  const before = bends.filter(({ s }) => s <= first);
  const inside = bends.filter(({ s }) => s > first && s < last);
  const after = bends.filter(({ s }) => s >= last);
  return [...before, { s: first, isFar: true }, ...inside, { s: last, isFar: true }, ...after];
}

function band(indices: number[], rings: readonly Ring[], flip: boolean): void {
  for (let i = 0; i + 1 < rings.length; i++) zip(indices, rings[i]!, rings[i + 1]!, flip);
}

/** The coarse surface's part of a rim's ring. */
export const coarse = (ring: Ring, lines: readonly RimLine[]): Ring => thinned(ring, (i) => lines[i]!.coarse);

/** The cut face of one end between its outside and bore curves; `open` takes the segments that meet nothing. */
export function cutFace(making: Making, end: 0 | 1, outer: Ring, bore: Ring, open: number[]): void {
  const { into, stations } = making;
  const lines = making.rims[end];
  const n = lines.length;
  const outside = end === 0 ? -1 : 1;
  const normals = lines.map((_, i): Vec => {
    const across = sub(into.placed(outer.ids[i]!), into.placed(bore.ids[i]!));
    const round = sub(into.placed(outer.ids[(i + 1) % n]!), into.placed(outer.ids[(i + n - 1) % n]!));
    const normal = cross(across, round);
    const l = len(normal);
    return l > 0 ? scale(normal, outside / l) : scale(making.axesAt(end * making.length).dir, outside);
  });
  const copy = (ring: Ring): Ring => {
    const first = into.count;
    normals.forEach((normal, i) => {
      const from = ring.ids[i]!;
      into.positions.pushFrom(into.positions, from);
      into.normals.push(...normal);
      stations.push(stations[from]!);
    });
    return ringFrom(first, ring.psi);
  };
  const outerCopy = copy(outer);
  const boreCopy = copy(bore);
  zip(into.indices, outerCopy, boreCopy, end === 0);
  zip(making.far, coarse(outerCopy, lines), coarse(boreCopy, lines), end === 0);
  for (let i = 0; i < n; i++) {
    const j = (i + 1) % n;
    if (lines[i]!.open && lines[j]!.open) {
      open.push(...into.placed(outer.ids[i]!), ...into.placed(outer.ids[j]!));
    }
  }
}
