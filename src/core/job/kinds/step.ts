import { place, strict } from "../fields.ts";
import { problem } from "../problem.ts";
import type { Kind } from "./kind.ts";
import type { Place } from "./nodes.ts";

/** A move from the node before. */
export interface StepNode {
  readonly kind: "step";
  readonly step: Place;
}

export interface FileStep {
  step: Place;
}

export const step: Kind<FileStep, StepNode> = {
  kind: "step",
  schema: strict({ step: place.describe("Move from the node before: forward, left, up.") }),
  rules: (_, path, turn) => (turn?.i === 0 ? [problem([...path, "step"], "first-step")] : []),
  read: (file) => ({ kind: "step", step: file.step }),
};
