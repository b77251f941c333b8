import { type Centreline, placeAt, placesOf } from "../bar/index.ts";
import {
  add,
  along,
  angleBetween,
  cross,
  dot,
  len,
  lerp,
  ORIGIN,
  scale,
  turn,
  unit,
  type Vec,
} from "../space/index.ts";
import { startOf } from "../trestles/index.ts";

/** Where a made bar is put: what was at p when it was made is at R(p − from) + to. */
export interface Pose {
  /** Images of the car's axes. */
  readonly axes: readonly [Vec, Vec, Vec];
  readonly from: Vec;
  readonly to: Vec;
}

/** Written out: the search asks it of every place of both rims, hundreds of times. */
export function put({ axes: [x, y, z], from, to }: Pose, p: Vec): Vec {
  const [a, b, c] = [p[0] - from[0], p[1] - from[1], p[2] - from[2]];
  return [
    to[0] + (x[0] * a + y[0] * b + z[0] * c),
    to[1] + (x[1] * a + y[1] * b + z[1] * c),
    to[2] + (x[2] * a + y[2] * b + z[2] * c),
  ];
}

/** The same, moved by `by` and turned about `to` by a small rotation vector (radians). */
export function nudged(pose: Pose, by: Vec, spin: Vec): Pose {
  const angle = len(spin);
  const axis: Vec = angle > 0 ? scale(spin, 1 / angle) : [0, 0, 1];
  const [x, y, z] = pose.axes;
  return {
    axes: [turn(x, axis, angle), turn(y, axis, angle), turn(z, axis, angle)],
    from: pose.from,
    to: add(pose.to, by),
  };
}

/** The same, rolled by an angle (radians) about an axis through `to`. */
export function rolled(pose: Pose, axis: Vec, angle: number): Pose {
  return nudged(pose, ORIGIN, scale(axis, angle));
}

/**
 * A made bar laid over another centreline: a bent one by its first bend and the plane of it, a straight one by its
 * middle and its direction, turned about itself no more than that needs. About the middle, so that turns are small there.
 */
export function laidOver(made: Centreline, onto: Centreline): Pose {
  const [a, b] = [startOf(made), startOf(onto)];
  const bent = made.bends[0] !== undefined && onto.bends[0] !== undefined;
  const axes = bent ? sameFrame(a, b) : imagesBy(leastTurn(a.dir, b.dir));
  const there: Pose = { axes, from: anchor(made, bent), to: anchor(onto, bent) };
  const middle = middleOf(made);
  return { axes, from: middle, to: put(there, middle) };
}

const anchor = (line: Centreline, bent: boolean): Vec =>
  bent ? placeAt(line, line.bends[0]?.start ?? 0).at : lerp(line.start, line.finish, 0.5);

function middleOf(line: Centreline): Vec {
  const places = placesOf(line);
  return scale(
    places.reduce((sum, p) => add(sum, p), ORIGIN),
    1 / places.length,
  );
}

type Frame = { readonly dir: Vec; readonly inside: Vec };

function sameFrame(a: Frame, b: Frame): Pose["axes"] {
  const [an, bn] = [cross(a.dir, a.inside), cross(b.dir, b.inside)];
  const image = (v: Vec): Vec =>
    along(along(scale(b.dir, dot(v, a.dir)), b.inside, dot(v, a.inside)), bn, dot(v, an));
  return imagesBy(image);
}

const imagesBy = (image: (v: Vec) => Vec): Pose["axes"] => [
  image([1, 0, 0]),
  image([0, 1, 0]),
  image([0, 0, 1]),
];

/** The turn that takes one unit direction to another and turns nothing about itself; none where they are opposite. */
export function leastTurn(a: Vec, b: Vec): (v: Vec) => Vec {
  const axis = cross(a, b);
  const angle = angleBetween(a, b);
  return (v) => (len(axis) > 1e-12 ? turn(v, unit(axis), angle) : v);
}
