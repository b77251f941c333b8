import type { AtNode } from "../../job/types.ts";
import { mirrored } from "../../space/index.ts";
import { type Placing, SQUARE } from "./kind.ts";

export const at: Placing<AtNode> = {
  resolve: (node) => ({ at: node.at, seat: SQUARE, findings: [] }),
  mirrored: (node) => ({ kind: "at", at: mirrored(node.at) }),
};
