// biome-ignore-all lint/style/noNonNullAssertion: a spine has four numbers a place, and every place read, with the one behind it, begins at or before `last`.
import type { Mesh, Points, ShaderMaterial } from "three";
import type { TubeMesh } from "../../core/mesh/index.ts";
import { lineObject } from "./lines.ts";
import { ATTENTION, marked } from "./marks.ts";
import type { Materials } from "./materials.ts";
import type { ViewTheme } from "./theme.ts";
import type { ViewBar } from "./types.ts";

/** What a bar is to the one who looks. */
export type Part = "inHand" | "attention" | "host" | "plain";

/** What a bar's surface, outline and rims are drawn with; `hidden`: what others hide of it, where that is drawn. */
export type Look = Readonly<Record<"fill" | "hull" | "rims" | "draft", ShaderMaterial>> & {
  readonly hidden?: ShaderMaterial;
};

interface Colours {
  readonly line: keyof ViewTheme;
  readonly face: keyof ViewTheme;
  readonly edge: keyof ViewTheme;
  /** CSS pixels. */
  readonly width: number;
}

const COLOURS: Readonly<Record<Part, Colours>> = {
  inHand: { line: "inHand", face: "inHandFill", edge: "inHandShade", width: 2.2 },
  attention: { line: "attention", face: "attentionFill", edge: "attentionShade", width: 1.4 },
  host: { line: "host", face: "hostFill", edge: "hostShade", width: 1.3 },
  plain: { line: "ink", face: "fill", edge: "shade", width: 1.3 },
};
/** How much stronger the edges are of what is pointed at. */
const POINTED = 1.6;

export function lookOf(part: Part, isPointed: boolean, materials: Materials): Look {
  const { line, face, edge, width } = COLOURS[part];
  const outline = width + (isPointed ? POINTED : 0);
  return {
    fill: materials.fill(face, edge, line),
    hull: materials.hull(line, outline),
    rims: materials.line(line, 0.75 * outline, "solid"),
    draft: materials.draft(face, edge, line, outline),
    ...(part === "inHand" ? { hidden: materials.hidden(line) } : {}),
  };
}

/** Marks and lines that a bar has beside its surface. */
export function marksOf(
  { mesh, state }: ViewBar,
  isInHand: boolean,
  materials: Materials,
): (Mesh | Points)[] {
  const out: (Mesh | Points)[] = [];
  if (mesh.open.length > 0) out.push(lineObject(mesh.open, materials.line("attention", 3, "dashed")));
  if (isInHand) {
    out.push(lineObject(spineSegments(mesh), materials.line("inHand", 0.9, "chain", true)));
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

/** Half way along the bar, less its mesh's origin. */
function middleOf({ spine }: TubeMesh): Float32Array {
  const last = spine.length - 4;
  const wanted = (spine[3]! + spine[last + 3]!) / 2;
  let i = 0;
  while (i + 8 <= last && spine[i + 7]! < wanted) i += 4;
  const t = (wanted - spine[i + 3]!) / (spine[i + 7]! - spine[i + 3]!);
  return Float32Array.from([0, 1, 2].map((k) => spine[i + k]! + t * (spine[i + 4 + k]! - spine[i + k]!)));
}
