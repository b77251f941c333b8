import { placeAt, reversed } from "../../src/core/bar/index.ts";
import type { Job } from "../../src/core/job/index.ts";
import type { Plan } from "../../src/core/plan/index.ts";

/**
 * A way followed by plain code that shares nothing with the fit room: bars as rows of short straight rods (bends by
 * 1°), ends as the places of their own cut and of the walls behind it, body as its measured lines and places, plates as
 * faces with their own sides, as deep as they are thick, and the floor as one without an edge. Slow.
 */
type P = readonly [number, number, number];
export interface Way {
  readonly bar: string;
  readonly after: readonly string[];
  readonly way: readonly { readonly at: P; readonly turn: readonly [number, number, number, number] }[];
}

interface Rod {
  readonly a: P;
  readonly b: P;
  readonly m: P;
  readonly half: number;
}
interface Tube {
  readonly id: string;
  readonly r: number;
  readonly rods: readonly Rod[];
  readonly centre: P;
  readonly reach: number;
  /** A plate or the floor: solid so deep below its face; the rods are its rim. */
  readonly face?: Face;
}
interface Face {
  readonly at: P;
  readonly n: P;
  readonly radius: number;
  /** Of a plate whose sides are known: the way they run, and half of each. */
  readonly sides?: readonly (readonly [P, number])[];
  readonly deep: number;
}
export interface Met {
  /** Deepest overlap with anything (mm), and with what. */
  readonly overlap: number;
  readonly with: string;
  /** Least distance to what it does not touch at its seat. */
  readonly clearance: number;
  readonly poses: number;
}

const sub = (a: P, b: P): P => [a[0] - b[0], a[1] - b[1], a[2] - b[2]];
const dot = (a: P, b: P): number => a[0] * b[0] + a[1] * b[1] + a[2] * b[2];
const far = (a: P, b: P): number => Math.hypot(a[0] - b[0], a[1] - b[1], a[2] - b[2]);
const mix = (a: P, b: P, t: number): P => [
  a[0] + (b[0] - a[0]) * t,
  a[1] + (b[1] - a[1]) * t,
  a[2] + (b[2] - a[2]) * t,
];
const rodOf = (a: P, b: P): Rod => ({ a, b, m: mix(a, b, 0.5), half: far(a, b) / 2 });

/** A row of places as rods with a ball round all of them. */
function tubeOf(id: string, r: number, places: readonly P[]): Tube {
  const rods =
    places.length === 1
      ? [rodOf(places[0]!, places[0]!)]
      : places.slice(1).map((p, i) => rodOf(places[i]!, p));
  const centre = mix(places[0]!, places[places.length - 1]!, 0.5);
  return { id, r, rods, centre, reach: Math.max(...places.map((p) => far(p, centre))) };
}

/** Distance of a place from a rod. */
function placeToRod(p: P, { a, b, half }: Rod): number {
  const x = p[0] - a[0];
  const y = p[1] - a[1];
  const z = p[2] - a[2];
  const dx = b[0] - a[0];
  const dy = b[1] - a[1];
  const dz = b[2] - a[2];
  const t = half > 0 ? Math.min(1, Math.max(0, (x * dx + y * dy + z * dz) / (4 * half * half))) : 0;
  return Math.hypot(x - t * dx, y - t * dy, z - t * dz);
}

/** Distance of two rods: inside both where their lines come closest, else at one of the four ends. */
function rodToRod(p: Rod, q: Rod): number {
  let best = Math.min(placeToRod(p.a, q), placeToRod(p.b, q), placeToRod(q.a, p), placeToRod(q.b, p));
  const u = sub(p.b, p.a);
  const v = sub(q.b, q.a);
  const w = sub(p.a, q.a);
  const [uu, uv, vv, uw, vw] = [dot(u, u), dot(u, v), dot(v, v), dot(u, w), dot(v, w)];
  const det = uu * vv - uv * uv;
  if (det > 1e-9 * uu * vv) {
    const s = (uv * vw - vv * uw) / det;
    const t = (uu * vw - uv * uw) / det;
    if (s > 0 && s < 1 && t > 0 && t < 1) best = Math.min(best, far(mix(p.a, p.b, s), mix(q.a, q.b, t)));
  }
  return best;
}

/** Height of a place over a face (below it: how deep), where it stands over or in it. */
function placeToFace(p: P, { at, n, radius, sides, deep }: Face): number {
  const d = sub(p, at);
  const h = dot(d, n);
  const isOver = sides
    ? sides.every(([way, half]) => Math.abs(dot(d, way)) <= half)
    : Math.sqrt(Math.max(0, dot(d, d) - h * h)) <= radius;
  return isOver && h > -deep ? h : Infinity;
}

/** Distance of a rod's middle line from a face, on either side; 0 where it goes through. */
function rodToFace({ a, b }: Rod, face: Face): number {
  const sheet = { ...face, deep: Infinity };
  const [h, k] = [dot(sub(a, face.at), face.n), dot(sub(b, face.at), face.n)];
  if (h * k < 0 && placeToFace(mix(a, b, h / (h - k)), { ...face, deep: 1e-6 }) < Infinity) return 0;
  return Math.min(Math.abs(placeToFace(a, sheet)), Math.abs(placeToFace(b, sheet)));
}

/** Places along a bar from one station to another: every bend by 1°. */
function along(line: Plan["bars"][number]["bar"]["centreline"], from: number, to: number): P[] {
  const stations = new Set([from, to]);
  for (const piece of line.pieces) {
    const n = piece.kind === "arc" ? Math.ceil((piece.angle * 180) / Math.PI) : 1;
    for (let i = 0; i <= n; i++) {
      const s = piece.s0 + (piece.length * i) / n;
      if (s > from && s < to) stations.add(s);
    }
  }
  return [...stations].sort((a, b) => a - b).map((s) => placeAt(line, s).at as P);
}

const isLow = (curve: Float64Array, phi: number): boolean =>
  curve[phi]! <= curve[(phi + 359) % 360]! && curve[phi]! <= curve[(phi + 1) % 360]!;

/** The lowest place of a rim within a degree of one of its lines, tried every 0.02°. */
function lowest(
  joint: Plan["bars"][number]["copes"]["A"]["joint"],
  rho: number,
  line: number,
  there: number,
): { readonly phi: number; readonly back: number } {
  let best = { phi: line, back: there };
  for (let i = -50; i <= 50 && joint; i++) {
    const phi = line + i / 50;
    const back = joint.back(rho, Math.cos((phi * Math.PI) / 180), Math.sin((phi * Math.PI) / 180));
    if (back < best.back) best = { phi, back };
  }
  return best;
}

/** The bar as it is moved: its whole part as rods, and places of both ends' walls from the cut inward. */
function moving(plan: Plan, id: string): { tube: Tube | undefined; ends: P[][]; about: P; reach: number } {
  const { bar, copes } = plan.byId.get(id)!;
  const { centreline: line, tube } = bar;
  const r = tube.od / 2;
  const from = copes.A.cope.greatest + r;
  const to = line.length - copes.B.cope.greatest - r;
  const ends = (["A", "B"] as const).map((end) => {
    const { cope, joint } = copes[end];
    const inward = end === "A" ? line : reversed(line);
    const out: P[] = [];
    const [z, u] = [cope.zero, cope.out];
    const e: P = [u[1] * z[2] - u[2] * z[1], u[2] * z[0] - u[0] * z[2], u[0] * z[1] - u[1] * z[0]];
    const first = inward.pieces[0]!.length;
    for (const [curve, rho] of [
      [cope.outer, cope.outerRadius],
      [cope.bore, cope.boreRadius],
    ] as const) {
      const sharp = [...curve].flatMap((b, phi) => (isLow(curve, phi) ? [lowest(joint, rho, phi, b)] : []));
      const even = Array.from({ length: 180 }, (_, i) => ({ phi: 2 * i, back: curve[2 * i]! }));
      for (const { phi, back } of [...even, ...sharp]) {
        if (Number.isNaN(back)) continue;
        const [c, s] = [rho * Math.cos((phi * Math.PI) / 180), rho * Math.sin((phi * Math.PI) / 180)];
        // Straight walls only: behind the start of a bend the tube's own rods take over.
        for (let b = back; b <= Math.min(Math.max(first, back), cope.greatest + r); b += 4) {
          const at = placeAt(inward, Math.min(b, first)).at;
          out.push([0, 1, 2].map((k) => at[k]! + c * z[k]! + s * e[k]!) as unknown as P);
        }
      }
    }
    return out;
  });
  const places = to > from ? along(line, from, to) : [];
  const about = line.start as P;
  const reach = Math.max(...ends.flat().map((p) => far(p, about)), ...places.map((p) => far(p, about) + r));
  return { tube: places.length > 0 ? tubeOf(id, r, places) : undefined, ends, about, reach };
}

/** What stands: bars, the body's lines and measured places on both sides, the driver, the floor. */
function standing(plan: Plan, job: Job, after: readonly string[]): Tube[] {
  const bars = after.map((id) => {
    const { bar } = plan.byId.get(id)!;
    return tubeOf(id, bar.tube.od / 2, along(bar.centreline, 0, bar.centreline.length));
  });
  const both = (places: readonly P[]): P[][] => [[...places], places.map((p): P => [p[0], -p[1], p[2]])];
  const lines = Object.entries(job.body.lines).flatMap(([id, l]) =>
    both(l as readonly P[]).map((p) => tubeOf(id, 0, p)),
  );
  const edges = Object.entries(job.body.openings ?? {}).map(([id, l]) =>
    tubeOf(id, 0, [...(l as readonly P[]), l[0] as P]),
  );
  const skin = Object.entries(job.body.skin).flatMap(([id, net]) =>
    (net as readonly P[]).flatMap((p) => both([p]).map((q) => tubeOf(id, 0, q))),
  );
  const d = job.driver;
  const driver = [
    ...(d?.hip && d.shoulder && d.torsoRadius
      ? [tubeOf("driver", d.torsoRadius, [d.hip as P, d.shoulder as P])]
      : []),
    ...(d?.helmet && d.helmetRadius ? [tubeOf("helmet", d.helmetRadius, [d.helmet as P])] : []),
  ];
  return [...bars, ...lines, ...edges, ...skin, ...driver, ...faces(plan)];
}

/**
 * The plates that bars stand on: by their sides where these and the way they run are given, else round (of their half
 * diagonal, or of 1.5 diameters of the bar over the cosine of its tilt), and the floor where no bar is below it.
 */
function faces(plan: Plan): Tube[] {
  const plates = plan.bars.flatMap(({ bar }) =>
    (["A", "B"] as const).flatMap((end): Tube[] => {
      const seat = bar.seat[end];
      if (seat.kind !== "plate") return [];
      const { size, along: way, thickness: deep = 3 } = seat;
      const [at, n] = [seat.at as P, seat.normal as P];
      const { dir } = placeAt(bar.centreline, end === "A" ? 0 : bar.centreline.length);
      const radius = size
        ? Math.hypot(size[0], size[1]) / 2
        : (1.5 * bar.tube.od) / Math.abs(dot(dir as P, n));
      const aside: P = way ? (way as P) : Math.abs(n[2]) < 0.9 ? [-n[1], n[0], 0] : [0, -n[2], n[1]];
      const u = aside.map((v) => v / Math.hypot(...aside)) as unknown as P;
      const w: P = [n[1] * u[2] - n[2] * u[1], n[2] * u[0] - n[0] * u[2], n[0] * u[1] - n[1] * u[0]];
      const sides: Face["sides"] =
        size && way
          ? [
              [u, size[0] / 2],
              [w, size[1] / 2],
            ]
          : undefined;
      const round = sides
        ? [1, -1, -1, 1, 1].map((c, i) => [c * sides[0]![1], [1, 1, -1, -1, 1][i]! * sides[1]![1]] as const)
        : Array.from(
            { length: 73 },
            (_, i) => [radius * Math.cos((i * Math.PI) / 36), radius * Math.sin((i * Math.PI) / 36)] as const,
          );
      // Round the face, and round the back of it.
      const rim = [0, -deep].flatMap((h) =>
        round.map(
          ([c, s]): P => [0, 1, 2].map((k) => at[k]! + c * u[k]! + s * w[k]! + h * n[k]!) as unknown as P,
        ),
      );
      const face: Face = { at, n, radius, ...(sides ? { sides } : {}), deep };
      const reach = radius + deep;
      return [{ ...tubeOf(`${seat.plate} at y ${at[1].toFixed(0)}`, 0, rim), centre: at, reach, face }];
    }),
  );
  const lowest = Math.min(
    ...plan.bars.flatMap(({ bar: { centreline: c, tube, seat } }) => [
      ...c.bends.map((b) => b.corner[2] - tube.od / 2),
      ...(["A", "B"] as const).map((end) => {
        const on = seat[end];
        const { at, dir } = placeAt(c, end === "A" ? 0 : c.length);
        return on.kind === "plate" ? on.at[2] : at[2] - (tube.od / 2) * Math.hypot(dir[0], dir[1]);
      }),
    ]),
  );
  if (lowest < -0.5) return plates;
  const floor = { at: [0, 0, 0], n: [0, 0, 1], radius: Infinity, deep: Infinity } as const;
  return [...plates, { id: "floor", r: 0, rods: [], centre: [0, 0, 0], reach: Infinity, face: floor }];
}

type Pose = Way["way"][number];

/** Slerp and straight line, as the answer is to be read. */
function between(a: Pose, b: Pose, t: number): Pose {
  const raw = a.turn.reduce((sum, v, i) => sum + v * b.turn[i]!, 0);
  const to = raw < 0 ? b.turn.map((v) => -v) : [...b.turn];
  const angle = Math.acos(Math.min(1, Math.abs(raw)));
  const [p, q] =
    angle < 1e-7
      ? [1 - t, t]
      : [Math.sin((1 - t) * angle) / Math.sin(angle), Math.sin(t * angle) / Math.sin(angle)];
  const turn = a.turn.map((v, i) => p * v + q * to[i]!);
  const size = Math.hypot(...turn);
  return { at: mix(a.at, b.at, t), turn: turn.map((v) => v / size) as unknown as Pose["turn"] };
}

function mover({ at, turn: [x, y, z, w] }: Pose, about: P): (p: P) => P {
  const m = [
    [1 - 2 * (y * y + z * z), 2 * (x * y - z * w), 2 * (x * z + y * w)],
    [2 * (x * y + z * w), 1 - 2 * (x * x + z * z), 2 * (y * z - x * w)],
    [2 * (x * z - y * w), 2 * (y * z + x * w), 1 - 2 * (x * x + y * y)],
  ] as const;
  return (p) => {
    const d = sub(p, about);
    return [0, 1, 2].map(
      (i) => m[i]![0] * d[0] + m[i]![1] * d[1] + m[i]![2] * d[2] + about[i]! + at[i]!,
    ) as unknown as P;
  };
}

/** Follows a way in steps of 0.25 mm and 0.1°; steps that cannot reach anything (it is farther off) are counted over. */
export function resweep(plan: Plan, job: Job, { bar, after, way }: Way): Met {
  const own = moving(plan, bar);
  const things = standing(plan, job, after);
  // What each thing was last found at, and how far the bar's fastest point had gone by then: far things are left alone.
  const seen = things.map(() => ({ d: -Infinity, at: 0 }));
  const gaps = (pose: Pose, gone: number, care: number): number[] => {
    const put = mover(pose, own.about);
    const rods = own.tube?.rods.map(({ a, b }) => rodOf(put(a), put(b))) ?? [];
    const whole = own.tube ? put(own.tube.centre) : undefined;
    const ends = own.ends.map((places) => places.map(put));
    const balls = ends.map((places) => {
      const c = places[0] ? mix(places[0], places[Math.floor(places.length / 4)]!, 0.5) : undefined;
      return c ? { c, reach: Math.max(...places.map((p) => far(p, c))) } : undefined;
    });
    return things.map((thing, t) => {
      const bound = seen[t]!.d - (gone - seen[t]!.at);
      if (bound > care && bound > seen[t]!.d / 2) return bound;
      let best = 200;
      if (
        own.tube &&
        far(whole!, thing.centre) - own.tube.reach - thing.reach - own.tube.r - thing.r < best
      ) {
        for (const q of thing.rods) {
          if (far(whole!, q.m) - own.tube.reach - q.half - own.tube.r - thing.r >= best) continue;
          for (const p of rods) {
            if (far(p.m, q.m) - p.half - q.half - own.tube.r - thing.r >= best) continue;
            best = Math.min(best, rodToRod(p, q) - own.tube.r - thing.r);
          }
        }
      }
      const { face } = thing;
      if (face) for (const p of rods) best = Math.min(best, rodToFace(p, face) - own.tube!.r);
      ends.forEach((places, e) => {
        const ball = balls[e];
        if (!ball) return;
        if (face && far(ball.c, thing.centre) - ball.reach - thing.reach < best)
          for (const p of places) best = Math.min(best, placeToFace(p, face));
        for (const q of thing.rods) {
          const near = placeToRod(ball.c, q) - thing.r;
          if (near - ball.reach >= best) continue;
          for (const p of places) best = Math.min(best, placeToRod(p, q) - thing.r);
        }
      });
      seen[t] = { d: best, at: gone };
      return best;
    });
  };
  const seated = gaps(way[way.length - 1]!, 0, 0).map((d) => d < 0.05);
  for (const s of seen) s.d = -Infinity;
  let gone = 0;
  let met: Met = { overlap: 0, with: "", clearance: Infinity, poses: 0 };
  for (let i = 0; i + 1 < way.length; i++) {
    const [a, b] = [way[i]!, way[i + 1]!];
    const raw = Math.abs(a.turn.reduce((sum, v, k) => sum + v * b.turn[k]!, 0));
    const angle = 2 * Math.acos(Math.min(1, raw));
    const total = far(a.at, b.at) + angle * own.reach;
    const steps = Math.ceil(Math.max(1, total / 0.25, (angle * 180) / Math.PI / 0.1));
    for (let k = 0; k <= steps; ) {
      const all = gaps(between(a, b, k / steps), gone + (total * k) / steps, 2);
      let least = 200;
      all.forEach((d, t) => {
        least = Math.min(least, d);
        if (-d > met.overlap) met = { ...met, overlap: -d, with: things[t]!.id };
        const measured = seen[t]!.at === gone + (total * k) / steps;
        if (measured && !seated[t] && d < met.clearance) met = { ...met, clearance: d };
      });
      met = { ...met, poses: met.poses + 1 };
      k += Math.max(1, Math.floor(least / 2 / 0.25));
    }
    gone += total;
  }
  return met;
}

/** How far a bar at a pose is from the boxes of tacked bars, by its corners and bends (mm). */
export function outsideBy(plan: Plan, { bar, after, way }: Way): number {
  const own = plan.byId.get(bar)!.bar;
  const put = mover(way[0]!, own.centreline.start as P);
  const box = (places: readonly P[], r: number) => ({
    lo: [0, 1, 2].map((k) => Math.min(...places.map((p) => p[k]!)) - r),
    hi: [0, 1, 2].map((k) => Math.max(...places.map((p) => p[k]!)) + r),
  });
  const mine = box(along(own.centreline, 0, own.centreline.length).map(put), own.tube.od / 2);
  return Math.min(
    ...after.map((id) => {
      const t = plan.byId.get(id)!.bar;
      const theirs = box(along(t.centreline, 0, t.centreline.length), t.tube.od / 2);
      return Math.hypot(
        ...[0, 1, 2].map((k) => Math.max(0, mine.lo[k]! - theirs.hi[k]!, theirs.lo[k]! - mine.hi[k]!)),
      );
    }),
  );
}
