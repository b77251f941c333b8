import type * as z from "zod";
import type { Fault, Path } from "../problem.ts";
import type { FileAlong } from "./along.ts";
import type { FileAt } from "./at.ts";
import type { LandingNode, LandingWhere, PathNode, Place, PlaceNode } from "./nodes.ts";
import type { FilePlane } from "./plane.ts";
import type { FilePlate } from "./plate.ts";
import type { FilePoint } from "./point.ts";
import type { FileStep } from "./step.ts";
import type { FileToward } from "./toward.ts";

/** What a node may name: a place in the car hangs on these alone. */
export type Found = (kind: "point" | "plate" | "bar", name: unknown, path: Path, link?: "land on") => void;

/** Which node of its path a node is, counted from 0, of how many. */
export interface Turn {
  readonly i: number;
  readonly count: number;
}

/** A landing as the file has it, lengths read: where on the host is one of the ways of landing. */
export interface FileLanding
  extends Partial<Loose<FileAlong>>,
    Partial<Loose<FilePlane>>,
    Partial<Loose<FileToward>> {
  on: string;
  off?: Place | undefined;
  also?: string[] | undefined;
}

type Loose<T> = { [K in keyof T]: T[K] | undefined };

/** Nodes as the file has them: a place as it is, or an object of one kind. */
export type FileObject = FileAt | FilePoint | FileStep | FilePlate | FileLanding;
export type FileNode = Place | FileObject;

/**
 * All that the job knows of one kind of node. A new kind is one such file, its line in `index.ts`, its shape in
 * `FileObject`, its types in `nodes.ts` and `../types.ts`, and its place in `layout/kinds`.
 */
export interface Kind<File extends object = FileObject, Node extends PathNode = PathNode> {
  /** The key by which a node in a file says that it is of this kind, and the node's kind here. */
  readonly kind: Node["kind"];
  /** Only the first or the last node can be of this kind. */
  readonly isEnd?: true;
  /** A landing can run toward such a node. */
  readonly isTarget?: true;
  /** Its shape in the file. */
  readonly schema: z.ZodType<File>;
  /** What the shape cannot say, looked for in the raw node; silent wherever the shape is wrong already. */
  rules?(node: unknown, path: Path, turn?: Turn): readonly Fault[];
  /** The names in the raw node; whatever has the wrong type is passed over. */
  names?(node: unknown, path: Path, found: Found): void;
  /** What the program computes with: defaults in, lengths in mm. */
  read(file: File): Node;
}

/** A way of saying where on its host a bar lands: the keys that stand beside `on`. */
export interface Way<File extends object = object, Where extends LandingWhere = LandingWhere> {
  readonly by: Where["by"];
  /** The keys one of which says where, each by itself. */
  readonly keys: readonly string[];
  rules?(node: unknown, path: Path): readonly Fault[];
  names?(node: unknown, path: Path, found: Found): void;
  /** Undefined where none of its keys is there. */
  read(file: Partial<Loose<File>>): Where | undefined;
}

/** What a kind whose nodes hold another node asks for that one: the kinds' own face, which it cannot import. */
export interface Inner {
  readonly schema: z.ZodType<FileNode>;
  readonly rules: (node: unknown, path: Path) => readonly Fault[];
  readonly names: (node: unknown, path: Path, found: Found) => void;
  readonly read: (file: FileNode) => PlaceNode | LandingNode;
}
