// biome-ignore-all lint/style/noNonNullAssertion: faces hold indices of the list that they were made over, rings are walked modulo their length, and axes are 0, 1 or 2.
import { cross, dot, sub, type Vec } from "../../space/index.ts";
import { boxOf } from "./box.ts";

type Flat = readonly [number, number];
export type Triangle = readonly [Vec, Vec, Vec];

const area2 = (a: Flat, b: Flat, c: Flat): number =>
  (b[0] - a[0]) * (c[1] - a[1]) - (b[1] - a[1]) * (c[0] - a[0]);

/**
 * A net of places on a surface as triangles: the Delaunay triangulation of the net as seen along the car axis in
 * which it is thinnest (A. Bowyer and D. F. Watson, The Computer Journal 24, 1981). Two places or fewer make none.
 */
export function netTriangles(net: readonly Vec[]): readonly Triangle[] {
  const { lo, hi } = boxOf(net);
  const thin = [0, 1, 2].reduce((a, k) => (hi[k]! - lo[k]! < hi[a]! - lo[a]! ? k : a), 0);
  const [u, v] = [0, 1, 2].filter((k) => k !== thin) as [number, number];
  const flat: Flat[] = net.map((p) => [p[u]!, p[v]!]);
  const size = Math.max(1, hi[u]! - lo[u]!, hi[v]! - lo[v]!);
  const n = flat.length;
  flat.push(
    [lo[u]! - 50 * size, lo[v]! - 40 * size],
    [lo[u]! + 60 * size, lo[v]! - 45 * size],
    [lo[u]!, lo[v]! + 70 * size],
  );
  let faces: (readonly [number, number, number])[] = [[n, n + 1, n + 2]];
  for (let i = 0; i < n; i++) {
    const p = flat[i]!;
    const bad = faces.filter((f) => inCircle(flat[f[0]]!, flat[f[1]]!, flat[f[2]]!, p));
    const edges = bad.flatMap(
      (f) =>
        [
          [f[0], f[1]],
          [f[1], f[2]],
          [f[2], f[0]],
        ] as const,
    );
    const rim = edges.filter(([a, b]) => !edges.some(([c, d]) => c === b && d === a));
    faces = [...faces.filter((f) => !bad.includes(f)), ...rim.map(([a, b]) => [a, b, i] as const)];
  }
  return faces
    .filter((f) => f.every((k) => k < n) && Math.abs(area2(flat[f[0]]!, flat[f[1]]!, flat[f[2]]!)) > 1e-6)
    .map((f) => [net[f[0]]!, net[f[1]]!, net[f[2]]!]);
}

/** Whether p lies in the circle through a, b, c (counter-clockwise). */
function inCircle(a: Flat, b: Flat, c: Flat, p: Flat): boolean {
  const row = (q: Flat): [number, number, number] => {
    const x = q[0] - p[0];
    const y = q[1] - p[1];
    return [x, y, x * x + y * y];
  };
  return dot(row(a), cross(row(b), row(c))) * Math.sign(area2(a, b, c)) > 0;
}

/**
 * A sheet by its edge, less the openings in it, as triangles: openings are joined to the edge by cuts, then ears are
 * cut off (G. H. Meisters, American Mathematical Monthly 82, 1975). Seen square to the edge's mean plane; the places
 * keep their own depth. Undefined where an edge crosses itself or an opening is not inside.
 */
export function sheetTriangles(
  edge: readonly Vec[],
  openings: readonly (readonly Vec[])[],
): readonly Triangle[] | undefined {
  const normal = edge.reduce<Vec>(
    (sum, p, i) => {
      const n = cross(p, edge[(i + 1) % edge.length]!);
      return [sum[0] + n[0], sum[1] + n[1], sum[2] + n[2]];
    },
    [0, 0, 0],
  );
  const size = Math.hypot(...normal);
  if (!(size > 1e-6)) return undefined;
  const [nx, ny, nz] = normal.map(Math.abs) as [number, number, number];
  const drop = nx >= ny && nx >= nz ? 0 : ny >= nz ? 1 : 2;
  const [u, v] = (
    [
      [1, 2],
      [2, 0],
      [0, 1],
    ] as const
  )[drop]!;
  const flatten = (p: Vec): Flat => [p[u], p[v]];
  let ring = oriented(edge, flatten, 1);
  for (const hole of [...openings].sort((a, b) => most(b, flatten) - most(a, flatten))) {
    const joined = join(ring, oriented(hole, flatten, -1), flatten);
    if (!joined) return undefined;
    ring = joined;
  }
  return ears(ring, flatten);
}

const most = (ring: readonly Vec[], flatten: (p: Vec) => Flat): number =>
  Math.max(...ring.map((p) => flatten(p)[0]));

function oriented(ring: readonly Vec[], flatten: (p: Vec) => Flat, sign: 1 | -1): readonly Vec[] {
  let twice = 0;
  ring.forEach((p, i) => {
    const a = flatten(p);
    const b = flatten(ring[(i + 1) % ring.length]!);
    twice += a[0] * b[1] - a[1] * b[0];
  });
  return Math.sign(twice) === sign ? ring : [...ring].reverse();
}

/** The ring with a cut to the opening, along the shortest line between their places that crosses neither. */
function join(
  ring: readonly Vec[],
  hole: readonly Vec[],
  flatten: (p: Vec) => Flat,
): readonly Vec[] | undefined {
  const pairs = ring.flatMap((p, i) => hole.map((q, j) => ({ i, j, d: Math.hypot(...sub(p, q)) })));
  pairs.sort((a, b) => a.d - b.d);
  const sides = [ring, hole].flatMap((r) =>
    r.map((p, i) => [flatten(p), flatten(r[(i + 1) % r.length]!)] as const),
  );
  const free = pairs.find(({ i, j }) => {
    const a = flatten(ring[i]!);
    const b = flatten(hole[j]!);
    return !sides.some(([c, d]) => crosses(a, b, c, d));
  });
  if (!free) return undefined;
  const { i, j } = free;
  return [...ring.slice(0, i + 1), ...hole.slice(j), ...hole.slice(0, j + 1), ...ring.slice(i)];
}

const crosses = (a: Flat, b: Flat, c: Flat, d: Flat): boolean =>
  area2(a, b, c) * area2(a, b, d) < -1e-9 && area2(c, d, a) * area2(c, d, b) < -1e-9;

function ears(ring: readonly Vec[], flatten: (p: Vec) => Flat): readonly Triangle[] | undefined {
  const left = [...ring];
  const out: Triangle[] = [];
  while (left.length > 3) {
    const n = left.length;
    const ear = left.findIndex((p, i) => {
      const a = flatten(left[(i + n - 1) % n]!);
      const b = flatten(p);
      const c = flatten(left[(i + 1) % n]!);
      if (!(area2(a, b, c) > 1e-9)) return area2(a, b, c) > -1e-9;
      return !left.some((q) => {
        const f = flatten(q);
        const same = [a, b, c].some((k) => k[0] === f[0] && k[1] === f[1]);
        return !same && area2(a, b, f) >= 0 && area2(b, c, f) >= 0 && area2(c, a, f) >= 0;
      });
    });
    if (ear < 0) return undefined;
    out.push([left[(ear + n - 1) % n]!, left[ear]!, left[(ear + 1) % n]!]);
    left.splice(ear, 1);
  }
  return [...out, [left[0]!, left[1]!, left[2]!]];
}
