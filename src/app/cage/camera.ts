import type { Vec } from "../../core/space/index.ts";
import { add, along, cross, dot, lerp, scale, sub } from "../../core/space/index.ts";

/** Where the camera is and how it looks: its whole state. */
export interface Camera {
  /** Direction from the target to the viewer: degrees from forward, toward left positive. */
  readonly az: number;
  /** Degrees above level, -90 to 90. */
  readonly el: number;
  /** What is in the middle of the picture (mm, car axes). */
  readonly target: Vec;
  /** How much of the plane through the target the picture's height shows (mm). */
  readonly height: number;
  /** 0 parallel rays, 1 the free view's gentle perspective. */
  readonly perspective: number;
}

export const STRAIGHT_VIEWS = ["left", "right", "front", "rear", "top", "bottom"] as const;
export type StraightView = (typeof STRAIGHT_VIEWS)[number];

/** Above and below keep the car's front where the view from the left has it. */
const STRAIGHT: Readonly<Record<StraightView, { readonly az: number; readonly el: number }>> = {
  left: { az: 90, el: 0 },
  right: { az: -90, el: 0 },
  front: { az: 0, el: 0 },
  rear: { az: 180, el: 0 },
  top: { az: 90, el: 90 },
  bottom: { az: 90, el: -90 },
};
export const THREE_QUARTER = { az: 38, el: 22 };

/** Field of view of the free view, up and down (degrees). */
export const FIELD = 18;

export const directionOf = (
  view: StraightView | "three-quarter",
): { readonly az: number; readonly el: number } =>
  view === "three-quarter" ? THREE_QUARTER : STRAIGHT[view];

export interface Axes {
  /** From the target to the viewer, and the picture's right and up; each of length 1. */
  readonly toward: Vec;
  readonly right: Vec;
  readonly up: Vec;
}

const RAD = Math.PI / 180;

export function axesOf({ az, el }: Pick<Camera, "az" | "el">): Axes {
  const [ca, sa, ce, se] = [Math.cos(az * RAD), Math.sin(az * RAD), Math.cos(el * RAD), Math.sin(el * RAD)];
  const toward: Vec = [ce * ca, ce * sa, se];
  const right: Vec = [-sa, ca, 0];
  return { toward, right, up: cross(toward, right) };
}

/** The viewer's distance from the target (mm); Infinity for parallel rays. */
export const distanceOf = ({ height, perspective }: Camera): number =>
  perspective > 0 ? height / 2 / Math.tan((FIELD * perspective * RAD) / 2) : Infinity;

export const wrap180 = (a: number): number => a - 360 * Math.ceil((a - 180) / 360);

/** The straight view that a camera has, if any. */
export function straightOf(camera: Pick<Camera, "az" | "el">): StraightView | undefined {
  return STRAIGHT_VIEWS.find((v) => {
    const at = STRAIGHT[v];
    return Math.abs(wrap180(camera.az - at.az)) < 1e-6 && Math.abs(camera.el - at.el) < 1e-6;
  });
}

/** A place with a radius around it. */
export interface Blob {
  readonly at: Vec;
  readonly radius: number;
}

/** The camera that shows all blobs from the same direction, in a picture `aspect` wide for its height. */
export function fitted(camera: Camera, blobs: readonly Blob[], aspect: number): Camera {
  if (blobs.length === 0) return camera;
  const { toward, right, up } = axesOf(camera);
  const range = (d: Vec): readonly [number, number] => [
    Math.min(...blobs.map((b) => dot(b.at, d) - b.radius)),
    Math.max(...blobs.map((b) => dot(b.at, d) + b.radius)),
  ];
  const middle = (d: Vec): Vec => scale(d, range(d).reduce((a, b) => a + b) / 2);
  const target = add(add(middle(right), middle(up)), middle(toward));
  const slope = Math.tan((FIELD * camera.perspective * RAD) / 2);
  let half = 1;
  for (const { at, radius } of blobs) {
    const p = sub(at, target);
    const nearer = (dot(p, toward) + radius) * slope;
    half = Math.max(
      half,
      Math.abs(dot(p, up)) + radius + nearer,
      (Math.abs(dot(p, right)) + radius) / aspect + nearer,
    );
  }
  return { ...camera, target, height: 2 * half * 1.08 };
}

/** Between two cameras, t from 0 to 1: round the shorter way, the scale by ratio. */
export function mixed(a: Camera, b: Camera, t: number): Camera {
  const part = (x: number, y: number): number => x + (y - x) * t;
  return {
    az: wrap180(a.az + wrap180(b.az - a.az) * t),
    el: part(a.el, b.el),
    target: lerp(a.target, b.target, t),
    height: a.height * (b.height / a.height) ** t,
    perspective: part(a.perspective, b.perspective),
  };
}

/** The same eye and the same picture, with the target as far off as a place. */
export function refocused(camera: Camera, place: Vec): Camera {
  const { toward } = axesOf(camera);
  const distance = distanceOf(camera);
  const nearer = Math.min(dot(sub(place, camera.target), toward), 0.95 * distance);
  const height = distance === Infinity ? camera.height : (camera.height * (distance - nearer)) / distance;
  return { ...camera, target: along(camera.target, toward, nearer), height };
}
