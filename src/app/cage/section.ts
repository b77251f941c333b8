// biome-ignore-all lint/style/noNonNullAssertion: i walks the outline's own length.
import { Plane, Vector3 } from "three";
import { sectionOf, type TubeMesh } from "../../core/mesh/index.ts";
import type { Vec } from "../../core/space/index.ts";
import { axesOf, type Camera } from "./camera.ts";
import type { Section } from "./types.ts";

/** Which coordinate a section is square to. */
const coordinateOf = ({ axis }: Section): 0 | 1 | 2 => "xyz".indexOf(axis) as 0 | 1 | 2;

/** The viewer's side, so that a section opens toward the eye. */
export const awayFrom = (section: Section, camera: Camera): "greater" | "lesser" =>
  axesOf(camera).toward[coordinateOf(section)] >= 0 ? "greater" : "lesser";

/** Whether a place is left standing. */
export const isKept = (section: Required<Section>, p: Vec): boolean => {
  const at = p[coordinateOf(section)];
  return section.away === "greater" ? at <= section.at : at >= section.at;
};

/** A cut's outline lies this far inside what is kept, so that the section does not take it away (mm). */
const INSIDE = 0.05;

/** Segments round the wall where the section cuts a bar, less its mesh's origin; none where it misses it. */
export function outlineOf(section: Required<Section>, mesh: TubeMesh): Float32Array {
  const k = coordinateOf(section);
  const outline = sectionOf(mesh, k, section.at);
  for (let i = k; i < outline.length; i += 3) outline[i]! += section.away === "greater" ? -INSIDE : INSIDE;
  return outline;
}

/** For the renderer, whose places are less `origin`. */
export function planeOf(section: Required<Section>, origin: Vec): Plane {
  const k = coordinateOf(section);
  const side = section.away === "greater" ? -1 : 1;
  return new Plane(new Vector3().setComponent(k, side), -side * (section.at - origin[k]));
}
