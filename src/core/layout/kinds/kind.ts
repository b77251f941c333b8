import type { Centreline } from "../../bar/index.ts";
import type { Finding } from "../../findings/index.ts";
import type { Job, LandingNode, LandingWhere, PathNode, PlaceNode, Plate } from "../../job/types.ts";
import type { Vec } from "../../space/index.ts";
import type { Both } from "../other-side.ts";
import type { ResolvedBar, Seat } from "../types.ts";

/** What a node's place may be computed from. */
export interface Surroundings {
  readonly job: Job;
  readonly hosts: (id: string) => ResolvedBar | undefined;
  /** Where findings say that the node is: `bars.harness.path[0]`. */
  readonly place: string;
  readonly bar: string;
  /** The place of the node before, which a `step` starts from (a moved landing counts as moved). */
  readonly before?: Vec | undefined;
}

/** A node with its place; no `at` where there is none, and then a finding says why. */
export interface ResolvedNode {
  readonly at?: Vec;
  readonly seat: Seat;
  readonly findings: readonly Finding[];
}

/** A plain end, cut square. */
export const SQUARE: Seat = { kind: "square" };

/** What a mirrored bar's own path is written with. */
export interface Mirroring {
  readonly job: Job;
  /** Which bar is whose mirror image. */
  readonly twins: ReadonlyMap<string, string>;
  readonly bars: Both;
  /** What the mirrored bar's end meets as wanted, where the node is an end. */
  readonly seat?: Seat | undefined;
  /** Plates of the mirrored bar, by ID: those of its original, mirrored. */
  readonly plates: Record<string, Plate>;
}

/** How a node of one kind becomes a place. A new kind is one such file and its line in `index.ts`. */
export interface Placing<Node extends PathNode = PathNode> {
  /** The place (mm, car axes) that a node stands for. */
  resolve(node: Node, around: Surroundings): ResolvedNode;
  /** What a mirrored bar's path says in its stead. */
  mirrored(node: Node, by: Mirroring): PathNode;
  /** The bars that its place is computed from. */
  hosts?(node: Node): readonly string[];
  /** The points that its place is computed from. */
  points?(node: Node): readonly string[];
  /** What else of the job its place is computed from: while that is the same, so is the place. */
  from?(node: Node, job: Job): readonly unknown[];
}

/** A landing that is sought on its host. */
export interface Landing {
  readonly node: LandingNode;
  readonly line: Centreline;
  readonly around: Surroundings;
  readonly fail: (code: Finding["code"], values: Finding["values"]) => ResolvedNode;
  readonly land: (along: number, findings?: readonly Finding[]) => ResolvedNode;
}

/** How a way of landing finds its station on the host. */
export interface LandingBy<Where extends LandingWhere = LandingWhere> {
  land(where: Where, landing: Landing): ResolvedNode;
  /** `itself`: the host, where that is its own mirror image. */
  mirrored(where: Where, by: Mirroring, itself?: string): LandingWhere;
  /** The node within, if there is one. */
  inner?(where: Where): PlaceNode | LandingNode;
}

/** The kinds' own face, for a kind whose nodes hold another node. */
export type PlacingOf = (node: PathNode) => Placing;
