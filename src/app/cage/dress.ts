// biome-ignore-all lint/style/noNonNullAssertion: a spine has four numbers a place, and every place read, with the one behind it, begins at or before `last`.
import type { Mesh, Points, ShaderMaterial } from "three";
import type { Progress } from "../../core/job/index.ts";
import type { TubeMesh } from "../../core/mesh/index.ts";
import { lineObject } from "./lines.ts";
import { ATTENTION, marked, TACK } from "./marks.ts";
import type { Materials, Pattern } from "./materials.ts";
import type { ViewTheme } from "./theme.ts";
import type { ViewBar } from "./types.ts";

/** How far a bar has come, in its line. */
const LINE_OF: Readonly<Record<Progress, Pattern>> = {
  "laid out": "dotted",
  sawn: "dashed",
  bent: "dashed",
  notched: "dashed",
  fitted: "dashed",
  tacked: "dashed",
  welded: "solid",
};

/** What a bar's surface, outline and rims are drawn with. */
export type Look = Readonly<Record<"fill" | "hull" | "rims" | "draft", ShaderMaterial>>;

/** Of a bar as it is now: in hand, in need of a look, or plain. */
export function lookOf(
  { state, progress }: ViewBar,
  isInHand: boolean,
  isPointed: boolean,
  materials: Materials,
): Look {
  const needsLook = state === "attention";
  const colour: keyof ViewTheme = isInHand ? "inHand" : needsLook ? "attention" : "ink";
  const face: keyof ViewTheme = isInHand ? "inHandFill" : needsLook ? "attentionFill" : "fill";
  const pattern = LINE_OF[progress];
  const edge = isInHand || needsLook ? face : "shade";
  const width = (isInHand ? 2.4 : 1.2) + (isPointed ? 1.4 : 0);
  return {
    fill: materials.fill(face, edge, colour),
    hull: materials.hull(colour, width, pattern),
    rims: materials.line(colour, isInHand ? 1.6 : 0.9, "solid"),
    draft: materials.draft(face, edge, { colour, width, pattern }),
  };
}

/** Marks and lines that a bar has beside its surface. */
export function marksOf(
  { mesh, progress, state }: ViewBar,
  isInHand: boolean,
  materials: Materials,
): (Mesh | Points)[] {
  const out: (Mesh | Points)[] = [];
  if (progress === "tacked" && mesh.tacks.length > 0) out.push(marked(mesh.tacks, materials.mark(TACK)));
  if (mesh.open.length > 0) out.push(lineObject(mesh.open, materials.line("attention", 3, "dashed")));
  if (isInHand) {
    out.push(lineObject(spineSegments(mesh), materials.line("inHand", 1.2, "chain", true)));
  }
  if (state === "attention") out.push(marked(middleOf(mesh), materials.mark(ATTENTION)));
  for (const object of out) object.renderOrder = 1;
  return out;
}

function spineSegments({ spine }: TubeMesh): Float32Array {
  const out: number[] = [];
  for (let i = 0; i + 4 < spine.length; i += 4) {
    out.push(spine[i]!, spine[i + 1]!, spine[i + 2]!, spine[i + 4]!, spine[i + 5]!, spine[i + 6]!);
  }
  return Float32Array.from(out);
}

/** A share of the way along the bar, less its mesh's origin; half way where none is said. */
export function middleOf({ spine }: TubeMesh, share = 0.5): Float32Array {
  const last = spine.length - 4;
  const wanted = spine[3]! + share * (spine[last + 3]! - spine[3]!);
  let i = 0;
  while (i + 8 <= last && spine[i + 7]! < wanted) i += 4;
  const t = (wanted - spine[i + 3]!) / (spine[i + 7]! - spine[i + 3]!);
  return Float32Array.from([0, 1, 2].map((k) => spine[i + k]! + t * (spine[i + 4 + k]! - spine[i + k]!)));
}
