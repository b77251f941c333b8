import type { Plate, PlateNode } from "../../job/types.ts";
import { mirrored } from "../../space/index.ts";
import type { Placing } from "./kind.ts";

/** A plate as it is on the other side of the car. */
export const mirroredPlate = <P extends Plate>(plate: P): P => ({
  ...plate,
  at: mirrored(plate.at),
  normal: mirrored(plate.normal),
  ...(plate.along ? { along: mirrored(plate.along) } : {}),
});

export const plate: Placing<PlateNode> = {
  resolve(node, { job }) {
    const found = plateOf(node, job.plates);
    return { at: found.at, seat: { kind: "plate", plate: node.plate, ...found }, findings: [] };
  },
  mirrored(node, { job, plates }) {
    plates[node.plate] = mirroredPlate(plateOf(node, job.plates));
    return node;
  },
  from: (node, job) => [job.plates[node.plate]],
};

function plateOf(node: PlateNode, plates: Readonly<Record<string, Plate>>): Plate {
  const found = plates[node.plate];
  if (!found) throw new Error("plateOf: a plate that is none passed the references");
  return found;
}
