import type { Vec } from "../space/index.ts";
import type { Centreline } from "./types.ts";

/** Ends and corners of a centreline, from A to B: the path that `asBuilt` keeps. */
export const placesOf = ({ start, bends, finish }: Centreline): readonly Vec[] => [
  start,
  ...bends.map((bend) => bend.corner),
  finish,
];
