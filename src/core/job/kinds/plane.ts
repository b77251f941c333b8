import * as z from "zod";
import { length, must, place } from "../fields.ts";
import { has } from "../peek.ts";
import { problem } from "../problem.ts";
import type { Way } from "./kind.ts";
import type { Place, Side } from "./nodes.ts";

/** Where the host's centreline crosses a plane square to a car axis; `near` picks among several crossings. */
export interface PlaneWhere {
  readonly by: "plane";
  readonly axis: "x" | "y" | "z";
  readonly value: number;
  readonly near?: Side | Place;
}

export interface FilePlane {
  x: number;
  y: number;
  z: number;
  near: Side | Place;
}

const AXES = ["x", "y", "z"] as const;

const near = z.union([z.enum(["left", "right", "front", "rear", "top", "bottom"]), place], must("near-is"));

export const planeShape = {
  x: length().optional().describe("Lands where the other bar is this far forward."),
  y: length().optional().describe("Lands where the other bar is this far left."),
  z: length().optional().describe("Lands where the other bar is this high."),
  near: near
    .optional()
    .describe("Which crossing, where the bar is there several times: a side, or the one nearest to a place."),
};

export const plane: Way<FilePlane, PlaneWhere> = {
  by: "plane",
  keys: AXES,
  rules: (node, path) =>
    has(node, "near") && !AXES.some((key) => has(node, key))
      ? [problem([...path, "near"], "near-alone")]
      : [],
  read(file) {
    for (const axis of AXES) {
      const value = file[axis];
      if (value === undefined) continue;
      return { by: "plane", axis, value, ...(file.near === undefined ? {} : { near: file.near }) };
    }
    return undefined;
  },
};
