import type { AlongWhere } from "./along.ts";
import type { AtNode } from "./at.ts";
import type { LandingNode } from "./landing.ts";
import type { PlaneWhere } from "./plane.ts";
import type { PlateNode } from "./plate.ts";
import type { PointNode } from "./point.ts";
import type { StepNode } from "./step.ts";
import type { TowardWhere } from "./toward.ts";

/** A place in the car: forward, left, up (mm). */
export type Place = readonly [number, number, number];
export type Side = "left" | "right" | "front" | "rear" | "top" | "bottom";

/** A move, or a place, of nothing. */
export const NOWHERE: Place = [0, 0, 0];

/** A node of a path that is free in the car. */
export type PlaceNode = AtNode | PointNode | StepNode;

/** Where on a host a bar lands. */
export type LandingWhere = AlongWhere | PlaneWhere | TowardWhere;

export type { AlongWhere, AtNode, LandingNode, PlaneWhere, PlateNode, PointNode, StepNode, TowardWhere };
export type PathNode = PlaceNode | LandingNode | PlateNode;

/** What a table of all kinds of nodes is keyed by: a landing counts as its way of landing. */
export type NodeKind = Exclude<PathNode["kind"], "on"> | LandingWhere["by"];
