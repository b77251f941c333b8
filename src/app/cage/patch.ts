import type { TubeMesh } from "../../core/mesh/index.ts";
import type { Camera } from "./camera.ts";
import { seenAt } from "./project.ts";
import { spineAt } from "./spread.ts";
import { type At, type Box, within } from "./thin.ts";

/** Outlines, marks at the ends and the notch's points reach beyond the tube by less than this (CSS pixels). */
const ROOM = 16;
/** Of a patch that takes more than this share of the picture nothing is gained. */
const MOST = 0.6;

type Size = readonly [width: number, height: number];

/** A tube as it is seen: its spine's places with how far it reaches round each (CSS pixels). */
type Seen = readonly { readonly x: number; readonly y: number; readonly reach: number }[];

function seen(mesh: TubeMesh, camera: Camera, size: Size): Seen | undefined {
  const out: { x: number; y: number; reach: number }[] = [];
  for (let i = 0; i < mesh.spine.length; i += 4) {
    const at = seenAt(camera, spineAt(mesh, i), size);
    if (!at) return undefined;
    // a notch's points reach beyond the spine by less than the tube is wide, or little more
    out.push({ x: at.x, y: at.y, reach: (4 * mesh.radius) / at.pixel });
  }
  return out;
}

/**
 * The part of the picture (CSS pixels) in which these tubes are seen, in whole pixels; undefined where it is not worth
 * telling from the whole, or one of them comes from behind the eye.
 */
export function patchOf(meshes: readonly TubeMesh[], camera: Camera, size: Size): Box | undefined {
  let [left, top, right, bottom] = [Infinity, Infinity, -Infinity, -Infinity];
  for (const mesh of meshes) {
    const tube = seen(mesh, camera, size);
    if (!tube) return undefined;
    for (const { x, y, reach } of tube) {
      const room = reach + ROOM;
      left = Math.min(left, x - room);
      right = Math.max(right, x + room);
      top = Math.min(top, y - room);
      bottom = Math.max(bottom, y + room);
    }
  }
  const x = Math.max(0, Math.floor(left));
  const y = Math.max(0, Math.floor(top));
  const width = Math.min(size[0], Math.ceil(right)) - x;
  const height = Math.min(size[1], Math.ceil(bottom)) - y;
  if (width <= 0 || height <= 0) return undefined;
  return width * height < MOST * size[0] * size[1] ? { x, y, width, height } : undefined;
}

/** Whether any of a tube may be seen in a part of the picture: never no where it is. */
export function isIn(patch: Box, mesh: TubeMesh, camera: Camera, size: Size): boolean {
  const tube = seen(mesh, camera, size);
  if (!tube) return true;
  return tube.some((at, i) => {
    const next = tube[i + 1] ?? at;
    return meets(patch, at, next, Math.max(at.reach, next.reach) + ROOM);
  });
}

/** Whether a run from one place to another comes within `room` of a box, which is taken as square at its corners. */
const meets = ({ x, y, width, height }: Box, a: At, b: At, room: number): boolean =>
  within(a, b, { x: x - room, y: y - room }, { x: x + width + room, y: y + height + room }) !== undefined;
