import { point as pointName } from "../../findings/index.ts";
import type { PointNode } from "../../job/types.ts";
import { add, mirrored, ORIGIN } from "../../space/index.ts";
import { type Placing, SQUARE } from "./kind.ts";

export const point: Placing<PointNode> = {
  resolve(node, { job, place, bar }) {
    const at = job.points[node.point]?.at;
    if (at) return { at: add(at, node.by), seat: SQUARE, findings: [] };
    const values = { point: pointName(node.point) };
    return { seat: SQUARE, findings: [{ code: "point-unplaced", place: `${place}.point`, bar, values }] };
  },
  mirrored(node, { job }) {
    const at = job.points[node.point]?.at ?? ORIGIN;
    return { kind: "at", at: mirrored(add(at, node.by)) };
  },
  points: (node) => [node.point],
  from: (node, job) => [job.points[node.point]],
};
