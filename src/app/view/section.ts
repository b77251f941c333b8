import { Plane, Vector3 } from "three";
import type { Vec } from "../../core/space/index.ts";
import { axesOf, type Stand } from "./stand.ts";
import type { Section } from "./types.ts";

/** Which coordinate a section is square to. */
export const coordinateOf = ({ axis }: Section): 0 | 1 | 2 => "xyz".indexOf(axis) as 0 | 1 | 2;

/** The viewer's side, so that a section opens toward the eye. */
export const awayFrom = (section: Section, stand: Stand): "greater" | "lesser" =>
  axesOf(stand).toward[coordinateOf(section)] >= 0 ? "greater" : "lesser";

/** Whether a place is left standing. */
export const isKept = (section: Required<Section>, p: Vec): boolean => {
  const at = p[coordinateOf(section)];
  return section.away === "greater" ? at <= section.at : at >= section.at;
};

/** For the renderer, whose places are less `origin`. */
export function planeOf(section: Required<Section>, origin: Vec): Plane {
  const k = coordinateOf(section);
  const side = section.away === "greater" ? -1 : 1;
  return new Plane(new Vector3().setComponent(k, side), -side * (section.at - origin[k]));
}
