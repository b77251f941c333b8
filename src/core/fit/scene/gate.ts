import type { Vec } from "../../space/index.ts";
import { sheetTriangles, type Triangle } from "./sheet.ts";

/** An opening of the body with the flat or bulged sheet that would close it. */
export interface Gate {
  readonly id: string;
  readonly triangles: readonly Triangle[];
}

/** The opening as a gate; undefined where its edge spans no sheet. */
export function gateOf(id: string, edge: readonly Vec[]): Gate | undefined {
  const triangles = sheetTriangles(edge, []);
  return triangles && triangles.length > 0 ? { id, triangles } : undefined;
}
