import type { StepNode } from "../../job/types.ts";
import { add, mirrored } from "../../space/index.ts";
import { type Placing, SQUARE } from "./kind.ts";

export const step: Placing<StepNode> = {
  // A step from a node that has no place has none either: that node has said why.
  resolve: (node, { before }) => ({
    ...(before ? { at: add(before, node.step) } : {}),
    seat: SQUARE,
    findings: [],
  }),
  mirrored: (node) => ({ kind: "step", step: mirrored(node.step) }),
};
