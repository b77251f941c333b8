import type { Progress } from "../../core/job/index.ts";

/** How far a bar has come, as its line says it: dotted, dashed, with dots at its joints, solid. */
export type ProgressLine = "dotted" | "dashed" | "tacked" | "solid";

export function progressLine(progress: Progress): ProgressLine {
  if (progress === "laid out") return "dotted";
  if (progress === "tacked") return "tacked";
  return progress === "welded" ? "solid" : "dashed";
}
