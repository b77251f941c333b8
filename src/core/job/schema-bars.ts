import * as z from "zod";
import { allowance, byId, direction, label, length, must, place, strict } from "./fields.ts";
import { NEEDS, type Place, PROGRESS, type Side } from "./types.ts";

/** A landing as the file has it, lengths read. */
export interface FileLanding {
  on: string;
  along?: number | undefined;
  x?: number | undefined;
  y?: number | undefined;
  z?: number | undefined;
  near?: Side | Place | undefined;
  toward?: FileTarget | undefined;
  off?: Place | undefined;
  also?: string[] | undefined;
}

export type FileFree = Place | { at: Place } | { point: string; by?: Place | undefined };
export type FileTarget = FileFree | FileLanding;
export type FileNode = FileTarget | { step: Place } | { plate: string };

const at = strict({ at: place });
const point = strict({ point: z.string(), by: place.optional() });
const step = strict({ step: place });
const plate = strict({ plate: z.string() });

const near = z.union([z.enum(["left", "right", "front", "rear", "top", "bottom"]), place], must("near-is"));

const landing: z.ZodType<FileLanding> = strict({
  on: z.string(),
  along: length().optional(),
  x: length().optional(),
  y: length().optional(),
  z: length().optional(),
  near: near.optional(),
  toward: z.lazy(() => target).optional(),
  off: place.optional(),
  also: z.array(z.string()).optional(),
});

const target: z.ZodType<FileTarget> = z.union([place, landing, at, point], must("toward-is"));

const node: z.ZodType<FileNode> = z.union([place, landing, plate, at, point, step], must("node-is"));

const follow = strict({
  bar: z.string(),
  gap: allowance(),
  side: z.union([z.enum(["inside", "outside"]), direction], must("side-is")),
  from: length().optional(),
  to: length().optional(),
});

const notchAngle = z.number().min(0).lt(90);

const believed = z.union(
  [notchAngle, z.tuple([notchAngle, notchAngle], must("from-to"))],
  must("notch-angle-is"),
);

const either = {
  label: label().optional(),
  trim: strict({ A: allowance().optional(), B: allowance().optional() }).optional(),
  fromEnd: z.enum(["A", "B"]).optional(),
  believed: strict({ A: believed.optional(), B: believed.optional() }).optional(),
  progress: z.enum(PROGRESS).optional(),
  needs: z.enum(NEEDS).optional(),
};

const mirrorBar = strict({ mirrorOf: z.string(), ...either }, "mirror-keys");

const pathBar = strict({
  ...either,
  tube: z.string(),
  die: z.string().optional(),
  path: z.array(node).min(2),
  follow: follow.optional(),
});

export const bars = byId(z.union([mirrorBar, pathBar], must("bar-is")));

export type FileBar = z.output<typeof bars>[string];
