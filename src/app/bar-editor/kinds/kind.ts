import type { LandingNode, PathNode, Place } from "../../../core/job/index.ts";
import type { JobDocument, Json, JsonPath } from "../../model/document/index.ts";
import type { Part } from "../parts.ts";

/** What a table of all kinds of nodes is keyed by: a landing counts as its way of landing. */
export type NodeKind = Exclude<PathNode["kind"], "on"> | LandingNode["where"]["by"];

/** Where a node is in the job, and what it is called: "End A", "Corner 2". */
export interface Spot {
  readonly document: JobDocument;
  readonly path: JsonPath;
  readonly who: string;
  readonly isCorner: boolean;
}

/** What is known of the place that a node had: where it is computed to be, and how far along its host. */
export interface Before {
  readonly place: Place;
  readonly previous?: Place;
  readonly along?: number;
}

/** A way in which a person may place a node. */
export interface Way {
  readonly id: string;
  readonly says: string;
  /** Where it is offered: landings and plates are for ends alone, a step for corners. */
  readonly for: "ends" | "corners" | "both";
  /** The thing that it names, which is chosen first. */
  readonly asks?: "host" | "plate" | "point";
  /** A node near where it was before; `what`: the thing that it names. */
  readonly make: (what: string, before: Before) => Json;
}

/** One kind of node, as a bar's sentences have it. */
export interface KindOfNode {
  /** What is said behind "End A". */
  readonly parts: (node: Json, spot: Spot) => readonly Part[];
  /** In the order in which they are offered among all kinds' (the order of `KINDS` in the index). */
  readonly ways: readonly Way[];
  /** Where it says that it is, whatever is computed; absent where only the layout knows. */
  readonly place?: (node: Json, document: JobDocument) => Place | undefined;
}
