import type { CopeOf } from "./cope.ts";
import type { BarFacts } from "./facts.ts";
import type { JobOf } from "./job.ts";
import { closestOnPart, type Line, placeOn } from "./line.ts";
import { leastOf } from "./march.ts";
import { slabsOf } from "./solids.ts";
import { apart, go, inner, minus, toOne, type V } from "./vec.ts";

/** Where things want the same room. */
export interface ClashOf {
  code: "clash" | "clash-self" | "clash-plate";
  bar: string;
  other?: string;
  plate?: string;
  by: number;
  at: V;
  /** Stations along the bar, and along the other or farther along itself. */
  along: number;
  otherAlong: number;
}
type Deep = Pick<ClashOf, "by" | "at" | "along" | "otherAlong">;

/** More is an overlap, less a touch (mm). */
const TOUCH = 0.05;
const ENDS = ["A", "B"] as const;

/**
 * Overlaps of bars at their places: tubes filled, ends cut to what they land on. Where tubes are whole, by how much
 * their centrelines are nearer than both radii (stations scanned a millimetre apart); an end by the deepest place of
 * its outside in the other's metal (lines 1° apart, places a millimetre apart), both refined.
 */
export function clashesOf(job: JobOf, bars: BarFacts[]): ClashOf[] {
  const pairs = bars.flatMap((a, i) =>
    bars.slice(i + 1).flatMap((b) => {
      if (!isNear(a, b)) return [];
      const all = [
        ...crossings(a, wholeOf(a), b, () => wholeOf(b)),
        ...ENDS.flatMap((end) => endIn(a, end, (q) => depthIn(b, q))),
        ...ENDS.flatMap((end) => endIn(b, end, (q) => depthIn(a, q))),
      ];
      const merged = apartFrom(all, 2 * Math.max(radius(a), radius(b)));
      return merged.map((d) => ({
        ...d,
        ...stations(a, b, d.at),
        code: "clash" as const,
        bar: a.laid.id,
        other: b.laid.id,
      }));
    }),
  );
  const selves = bars.flatMap((a) =>
    selfOf(a).map((d) => ({ ...d, code: "clash-self" as const, bar: a.laid.id })),
  );
  const plates = slabsOf(
    job,
    bars.map((b) => b.laid),
  ).flatMap(({ id, solid }) =>
    bars.flatMap((a) => {
      const r = radius(a);
      const deep = scan(
        wholeOf(a),
        r,
        (s) => solid(placeOn(a.laid.line, s).at),
        (s) => ({ at: placeOn(a.laid.line, s).at, along: s, otherAlong: s }),
      );
      const [most] = apartFrom(
        [...deep, ...ENDS.flatMap((end) => endIn(a, end, (q) => -solid(q)))],
        Infinity,
      );
      return most
        ? [{ ...most, ...stations(a, a, most.at), code: "clash-plate" as const, bar: a.laid.id, plate: id }]
        : [];
    }),
  );
  return [...pairs, ...selves, ...plates];
}

const radius = (a: BarFacts): number => a.laid.tube.od / 2;
const stations = (a: BarFacts, b: BarFacts, at: V) => ({
  along: nearest(a.laid.line, at).s,
  otherAlong: nearest(b.laid.line, at).s,
});

/** How far a bar's ends may reach past its landings. */
const beyond = ({ cope }: BarFacts): number => Math.max(0, -cope.A.least, -cope.B.least);

function isNear(a: BarFacts, b: BarFacts): boolean {
  const room = radius(a) + radius(b) + beyond(a) + beyond(b);
  const { line } = a.laid;
  for (let s = 0; ; ) {
    const clear = nearest(b.laid.line, placeOn(line, s).at).d - room;
    if (clear <= 0) return true;
    if (s >= line.length) return false;
    s = Math.min(line.length, s + Math.max(1, clear));
  }
}

/** The closest place of a centreline between two stations; its end straights may run on. */
function nearest(line: Line, q: V, from = 0, to = line.length): { s: number; d: number } {
  const last = line.parts.length - 1;
  let best = { s: from, d: Infinity };
  line.parts.forEach((part, i) => {
    const [lo, hi] = [
      i === 0 ? from : Math.max(from, part.s),
      i === last ? to : Math.min(to, part.s + part.length),
    ];
    if (lo > hi) return;
    const found = closestOnPart(
      part,
      q,
      i === 0 ? Math.max(0, -from) : 0,
      i === last ? Math.max(0, to - line.length) : 0,
    );
    const s = Math.min(hi, Math.max(lo, found.s));
    const d = s === found.s ? found.d : apart(q, placeOn(line, s).at);
    if (d < best.d) best = { s, d };
  });
  return best;
}

type Stretch = readonly [number, number];

/** Stations between which all round the tube is there, and half a ball at either end of it, too. */
const wholeOf = (a: BarFacts): Stretch => {
  const r = radius(a);
  const half = a.laid.line.length / 2;
  const back = (end: CopeOf): number => Math.min(half, end.greatest + r);
  return [back(a.cope.A), a.laid.line.length - back(a.cope.B)];
};

/** Dips of a distance below `room` along a stretch, the lowest place of each. The distance grows no faster than s. */
function scan(
  [from, to]: Stretch,
  room: number,
  far: (s: number) => number,
  found: (s: number) => Omit<Deep, "by">,
): Deep[] {
  const out: Deep[] = [];
  let low: { s: number; d: number } | undefined;
  const close = (): void => {
    if (!low) return;
    const s = leastOf(far, Math.max(from, low.s - 1), Math.min(to, low.s + 1), 1e-4);
    const best = far(s) < low.d ? s : low.s;
    out.push({ by: room - far(best), ...found(best) });
    low = undefined;
  };
  for (let s = from; ; ) {
    const d = far(s);
    const clear = d - room + TOUCH;
    if (clear < 0 && (!low || d < low.d)) low = { s, d };
    if (clear >= 0) close();
    if (s >= to) break;
    s = Math.min(to, s + Math.max(1, clear));
  }
  close();
  return out;
}

function crossings(a: BarFacts, of: Stretch, b: BarFacts, on: (s: number) => Stretch): Deep[] {
  const [ra, rb] = [radius(a), radius(b)];
  const near = (s: number) => nearest(b.laid.line, placeOn(a.laid.line, s).at, ...on(s));
  return scan(
    of,
    ra + rb,
    (s) => near(s).d,
    (s) => {
      const [p, { s: t, d }] = [placeOn(a.laid.line, s).at, near(s)];
      const q = placeOn(b.laid.line, t).at;
      // half way between the surfaces that have gone past each other
      const k = Math.min(d, Math.max(0, (ra + d - rb) / 2));
      return { at: d < 1e-9 ? p : go(p, toOne(minus(q, p)), k), along: s, otherAlong: t };
    },
  );
}

/** The deepest place of an end's outside, from its rim to where the tube is whole. */
function endIn(a: BarFacts, end: "A" | "B", depth: (q: V) => number): Deep[] {
  const { joint, outside, greatest } = a.cope[end];
  const whole = Math.min(a.laid.line.length / 2, greatest + radius(a));
  const reach = radius(a) + Math.abs(whole - a.cope[end].least);
  const at = (b: number, phi: number): V => joint.at(b, joint.rho, phi);
  // depth changes no faster than a place moves
  if (depth(joint.at((whole + a.cope[end].least) / 2, 0, 0)) < -reach) return [];
  const rim = (phi: number): number => {
    const b = joint.kind === "square" ? 0 : joint.back(joint.rho, phi);
    return Number.isNaN(b) ? greatest : b;
  };
  let best = { by: TOUCH, b: 0, phi: 0 };
  for (let phi = 0; phi < 360; phi++) {
    const back = outside[2 * phi]!;
    const from = Number.isNaN(back) ? greatest : back;
    for (let b = from; ; ) {
      const by = depth(at(b, phi));
      if (by > best.by) best = { by, b, phi };
      if (b >= whole) break;
      b = Math.min(whole, b + Math.max(1, -by));
    }
  }
  if (best.by <= TOUCH) return [];
  for (let step = 0.5; step > 1e-3; step /= 2)
    for (const [db, dphi] of [
      [1, 0],
      [-1, 0],
      [0, 1],
      [0, -1],
      [0, 0],
    ] as const) {
      const phi = best.phi + dphi * step;
      const b = Math.max(rim(phi), best.b + db * step);
      const by = depth(at(b, phi));
      if (by > best.by) best = { by, b, phi };
    }
  return [{ by: best.by, at: at(best.b, best.phi), along: best.b, otherAlong: best.b }];
}

/** How deep a place is in a bar's metal; negative: outside. */
function depthIn(x: BarFacts, q: V): number {
  const { line } = x.laid;
  const [before, after] = [Math.min(0, x.cope.A.least), line.length - Math.min(0, x.cope.B.least)];
  const { s, d } = nearest(line, q, before, after);
  const depth = radius(x) - d;
  if (depth <= 0) return depth;
  let clear = Infinity;
  for (const end of ENDS) {
    const { joint, least, greatest } = x.cope[end];
    const { landing, u } = joint.frame;
    const back = -inner(minus(q, landing), u);
    if (s === (end === "A" ? before : after)) clear = Math.min(clear, back - Math.min(0, least));
    if (apart(q, landing) < Math.max(greatest, -least) + 3 * radius(x))
      clear = Math.min(clear, joint.solid(q));
  }
  return clear > 1e-3 ? depth : Math.min(0, clear - 1e-3);
}

/** Where a bar runs into itself: places more than half round the tube apart along it. */
function selfOf(a: BarFacts): Deep[] {
  const { line } = a.laid;
  if (line.bends.reduce((sum, b) => sum + b.angle, 0) < Math.PI - 1e-9) return [];
  const r = radius(a);
  const [from, to] = wholeOf(a);
  const on = (s: number): Stretch => [s + Math.PI * r, to];
  const crossed = crossings(a, [from, to - Math.PI * r], a, on);
  const ends = ENDS.flatMap((end) => {
    const own = (end === "A" ? from : line.length - to) + Math.PI * r;
    const rest: Stretch = end === "A" ? [own, line.length] : [0, line.length - own];
    return endIn(a, end, (q) => r - nearest(line, q, ...rest).d).map((d) => {
      const here = end === "A" ? d.along : line.length - d.along;
      const there = nearest(line, d.at, ...rest).s;
      return { ...d, along: Math.min(here, there), otherAlong: Math.max(here, there) };
    });
  });
  return apartFrom([...crossed, ...ends], 2 * r);
}

/** The deepest of those that are near each other. */
function apartFrom(all: Deep[], far: number): Deep[] {
  const out: Deep[] = [];
  for (const d of all.sort((p, q) => q.by - p.by))
    if (out.every((o) => apart(o.at, d.at) >= far)) out.push(d);
  return out;
}
