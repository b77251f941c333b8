import type { Vec } from "../space/index.ts";

/** What a member is made of (N, mm): all that a straight, slender member of a round section needs. */
export interface Stiffness {
  /** E·A (N). */
  readonly axial: number;
  /** E·I (N mm²), the same about every diameter. */
  readonly bending: number;
  /** G·I_t (N mm²). */
  readonly torsion: number;
}

/** A straight member between two nodes, rigidly joined to both. */
export interface Member {
  readonly a: number;
  readonly b: number;
  readonly of: Stiffness;
}

/** A frame of straight members in space (car axes, mm). */
export interface Frame {
  readonly nodes: readonly Vec[];
  readonly members: readonly Member[];
  /** Nodes that cannot move nor turn. */
  readonly held: readonly number[];
}

/** A force at a node (N) and a moment (N mm). */
export interface Load {
  readonly node: number;
  readonly force: Vec;
  readonly moment?: Vec;
}

/** How far a node goes (mm) and turns (radians, small). */
export interface Moved {
  readonly shift: Vec;
  readonly turn: Vec;
}
