// biome-ignore-all lint/style/noNonNullAssertion: corners, dirs, angles and straights hang together: n corners have n − 1 directions and straights and n − 2 angles, by the loops that fill them, and there are two corners at least.
import { count, degrees, type Finding, mm } from "../findings/index.ts";
import { deg, LEAST_BEND, NO_BEND, SAME_PLACE } from "../numeric/index.ts";
import { along, angleBetween, cross, dist, scale, sub, unit, type Vec } from "../space/index.ts";
import { rotation } from "./rotation.ts";
import { type Corner, leaveOutSmall } from "./small.ts";
import { closestOnPiece } from "./station.ts";
import type { Arc, Bend, Centreline, Piece, SmallCorner, Straight } from "./types.ts";

/** Whose centreline it is, for the findings. */
export interface Named {
  readonly bar: string;
  readonly place: string;
}

export type Built =
  | { readonly ok: true; readonly centreline: Centreline }
  | { readonly ok: false; readonly findings: readonly Finding[] };

/**
 * The centreline from end A through corners to end B: straights and bends of one centreline radius.
 *
 * Convention: leg i runs from node i to node i + 1, d_i its direction from A to B; corner i stands between legs
 * i and i + 1 with bend angle θ_i = ∠(d_i, d_i+1), tangent length T = R·tan(θ/2), arc R·θ. Rotation about leg d
 * between bends of normals n₁, n₂ (n = d_i × d_i+1): atan2(d·(n₁×n₂), n₁·n₂), positive clockwise from A toward B.
 * Units: nodes and `clr` mm; angles in the result radians; `least` radians.
 * Range: a corner under 0.001° is no bend and is dropped; one under `least` that can be left out (`leaveOutSmall`) is
 * left out and listed in `small`. No geometry, with a finding each: two nodes within 0.001 mm of each other, a corner
 * that folds back (180°), a corner without a radius, a straight shorter than 0 (by more than 0.001 mm: less is
 * rounding of the places and counts as 0).
 */
export function centrelineOf(
  nodes: readonly Vec[],
  clr: number | undefined,
  named: Named,
  least = LEAST_BEND,
): Built {
  const findings: Finding[] = [];
  const at = (code: Finding["code"], values: Finding["values"]): void => {
    findings.push({ code, place: named.place, bar: named.bar, values });
  };
  for (let i = 0; i + 1 < nodes.length; i++) {
    if (dist(nodes[i]!, nodes[i + 1]!) <= SAME_PLACE) {
      at("corner-coincident", { first: count(i), second: count(i + 1) });
    }
  }
  if (findings.length > 0) return { ok: false, findings };

  const { kept, left } = leaveOutSmall(withoutFlatCorners(nodes), clr ?? 0, least);
  const corners = kept.map((c) => c.at);
  const dirs: Vec[] = [];
  for (let i = 0; i + 1 < corners.length; i++) dirs.push(unit(sub(corners[i + 1]!, corners[i]!)));
  const angles: number[] = [];
  for (let i = 1; i < dirs.length; i++) {
    const angle = angleBetween(dirs[i - 1]!, dirs[i]!);
    angles.push(angle);
    const { n } = kept[i]!;
    if (Math.PI - angle < NO_BEND) at("corner-folds", { corner: count(n), angle: degrees(deg(angle)) });
    else if (clr === undefined) at("die-missing", { corner: count(n), angle: degrees(deg(angle)) });
  }
  if (findings.length > 0) return { ok: false, findings };

  const radius = clr ?? 0;
  const straights = dirs.map((_, i) => {
    const leg = dist(corners[i]!, corners[i + 1]!);
    const before = i > 0 ? radius * Math.tan(angles[i - 1]! / 2) : 0;
    const after = i < angles.length ? radius * Math.tan(angles[i]! / 2) : 0;
    return leg - before - after;
  });
  straights.forEach((length, i) => {
    if (length < -SAME_PLACE) at("straight-short", { leg: count(i + 1), missing: mm(-length) });
  });
  if (findings.length > 0) return { ok: false, findings };
  const line = join(kept, dirs, angles, straights, radius);
  const small = left.map(
    ({ leg, ...corner }): SmallCorner => ({
      ...corner,
      along: besideLeg(line.pieces, leg, corner.corner),
    }),
  );
  return { ok: true, centreline: { ...line, small } };
}

/** Station (mm) of the place beside a corner that was left out of leg `leg` (0 first): on it, or in a bend at its end. */
function besideLeg(pieces: readonly Piece[], leg: number, corner: Vec): number {
  const near = pieces.slice(Math.max(0, 2 * leg - 1), 2 * leg + 2).map((p) => closestOnPiece(p, corner));
  return near.reduce((a, b) => (b.distance < a.distance ? b : a)).s;
}

/** Nodes less the inner ones that turn less than 0.001°. */
function withoutFlatCorners(nodes: readonly Vec[]): Vec[] {
  const kept: Vec[] = [];
  nodes.forEach((node, i) => {
    const before = kept[kept.length - 1];
    const after = nodes[i + 1];
    if (before && after && dist(before, node) > SAME_PLACE && dist(node, after) > SAME_PLACE) {
      if (angleBetween(sub(node, before), sub(after, node)) < NO_BEND) return;
    }
    kept.push(node);
  });
  return kept;
}

function join(
  kept: readonly Corner[],
  dirs: readonly Vec[],
  angles: readonly number[],
  straights: readonly number[],
  radius: number,
): Omit<Centreline, "small"> {
  const corners = kept.map((c) => c.at);
  const pieces: Piece[] = [];
  const bends: Bend[] = [];
  let s = 0;
  let from = corners[0]!;
  for (let i = 0; i < dirs.length; i++) {
    const dir = dirs[i]!;
    const length = Math.max(0, straights[i]!);
    const straight: Straight = { kind: "straight", s0: s, from, dir, length };
    pieces.push(straight);
    s += length;
    if (i === angles.length) break;
    const angle = angles[i]!;
    const next = dirs[i + 1]!;
    const n = unit(cross(dir, next));
    const x = cross(dir, n);
    const corner = corners[i + 1]!;
    const tangent = radius * Math.tan(angle / 2);
    const begins = along(corner, dir, -tangent);
    const arc: Arc = {
      kind: "arc",
      s0: s,
      centre: along(begins, x, -radius),
      x,
      y: dir,
      n,
      radius,
      angle,
      length: radius * angle,
    };
    pieces.push(arc);
    const before = bends[bends.length - 1];
    bends.push({
      n: kept[i + 1]!.n,
      corner,
      clr: radius,
      angle,
      rotation: before ? rotation(dir, before.arc.n, n) : 0,
      start: s,
      end: s + arc.length,
      straightBefore: length,
      arc,
    });
    s += arc.length;
    from = along(corner, next, tangent);
  }
  return {
    pieces,
    bends,
    length: s,
    lastStraight: Math.max(0, straights[straights.length - 1]!),
    start: corners[0]!,
    finish: corners[corners.length - 1]!,
  };
}

/** The same centreline run from B to A. Angles and rotation signs stay, their order turns round. */
export function reversed(line: Centreline): Centreline {
  const pieces = [...line.pieces].reverse().map((p): Piece => {
    const s0 = line.length - p.s0 - p.length;
    if (p.kind === "straight") {
      return { ...p, s0, from: along(p.from, p.dir, p.length), dir: scale(p.dir, -1) };
    }
    const c = Math.cos(p.angle);
    const q = Math.sin(p.angle);
    const x = along(scale(p.x, c), p.y, q);
    const y = along(scale(p.x, q), p.y, -c);
    return { ...p, s0, x, y, n: scale(p.n, -1) };
  });
  const total = line.bends.length;
  const all = total + line.small.length;
  const bends = [...line.bends].reverse().map((b, i): Bend => {
    const next = line.bends[total - i];
    const after = next ? next.straightBefore : line.lastStraight;
    const arc = pieces[2 * i + 1] as Arc;
    return {
      ...b,
      n: all + 1 - b.n,
      rotation: next ? next.rotation : 0,
      start: line.length - b.end,
      end: line.length - b.start,
      straightBefore: after,
      arc,
    };
  });
  const small = [...line.small].reverse().map(
    (c): SmallCorner => ({
      ...c,
      n: all + 1 - c.n,
      normal: scale(c.normal, -1),
      along: line.length - c.along,
    }),
  );
  const first = line.bends[0];
  return {
    pieces,
    bends,
    small,
    length: line.length,
    lastStraight: first ? first.straightBefore : line.lastStraight,
    start: line.finish,
    finish: line.start,
  };
}

/** The centreline mirrored about y = 0: A stays A, rotations change sign. */
export function mirroredLine(line: Centreline, mirror: (v: Vec) => Vec): Centreline {
  const piece = (p: Piece): Piece =>
    p.kind === "straight"
      ? { ...p, from: mirror(p.from), dir: mirror(p.dir) }
      : // x × y turns over under a mirror, so the normal is mirrored and reversed.
        { ...p, centre: mirror(p.centre), x: mirror(p.x), y: mirror(p.y), n: scale(mirror(p.n), -1) };
  const pieces = line.pieces.map(piece);
  return {
    ...line,
    pieces,
    bends: line.bends.map((b, i) => ({
      ...b,
      corner: mirror(b.corner),
      rotation: b.rotation === 0 || b.rotation === Math.PI ? b.rotation : -b.rotation,
      arc: pieces[2 * i + 1] as Arc,
    })),
    small: line.small.map((c) => ({
      ...c,
      corner: mirror(c.corner),
      normal: scale(mirror(c.normal), -1),
    })),
    start: mirror(line.start),
    finish: mirror(line.finish),
  };
}
