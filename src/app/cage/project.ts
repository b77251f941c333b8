import { dot, sub, type Vec } from "../../core/space/index.ts";
import { axesOf, type Camera, distanceOf } from "./camera.ts";

/** Where a place of the car is seen in the picture. */
export interface Seen {
  /** CSS pixels from the picture's upper left corner, to the right and down. */
  readonly x: number;
  readonly y: number;
  /** How far behind the target (mm); less is nearer to the eye. */
  readonly depth: number;
  /** mm to a CSS pixel there. */
  readonly pixel: number;
}

/** Nearer to the eye than this share of its distance nothing is seen. */
const NEAR = 0.03;

/** Undefined for what lies behind the eye. */
export function seenAt(camera: Camera, place: Vec, [w, h]: readonly [number, number]): Seen | undefined {
  const { toward, right, up } = axesOf(camera);
  const from = sub(place, camera.target);
  const depth = -dot(from, toward);
  const distance = distanceOf(camera);
  const away = distance === Infinity ? 1 : (distance + depth) / distance;
  if (away < NEAR) return undefined;
  const pixel = (camera.height / h) * away;
  return { x: w / 2 + dot(from, right) / pixel, y: h / 2 - dot(from, up) / pixel, depth, pixel };
}
