import type {
  Job,
  LandingNode,
  LandingWhere,
  MirrorBar,
  PathBar,
  PathNode,
  PlaceNode,
  Plate,
  Side,
} from "../job/types.ts";
import { add, mirrored, ORIGIN, type Vec } from "../space/index.ts";
import type { ResolvedBar, Seat } from "./types.ts";

const OTHER: Readonly<Record<Side, Side>> = {
  left: "right",
  right: "left",
  front: "front",
  rear: "rear",
  top: "top",
  bottom: "bottom",
};

/** A plate as it stands on the other side of the car. */
export const mirroredPlate = <P extends Plate>(plate: P): P => ({
  ...plate,
  at: mirrored(plate.at),
  normal: mirrored(plate.normal),
  ...(plate.along ? { along: mirrored(plate.along) } : {}),
});

/** What a mirrored bar's own path would say: its original's, mirrored about y = 0 node by node. */
export function mirroredPath(
  bar: MirrorBar,
  original: PathBar,
  job: Job,
  wanted: ResolvedBar,
  twins: ReadonlyMap<string, string>,
): { readonly path: PathBar; readonly plates: Record<string, Plate> } {
  const plates: Record<string, Plate> = {};
  const free = (node: PlaceNode): PlaceNode => {
    if (node.kind === "at") return { kind: "at", at: mirrored(node.at) };
    if (node.kind === "step") return { kind: "step", step: mirrored(node.step) };
    const at: Vec = job.points[node.point]?.at ?? ORIGIN;
    return { kind: "at", at: mirrored(add(at, node.by)) };
  };
  const landing = (node: LandingNode, seat?: Seat): LandingNode => {
    const here = seat?.kind === "on" ? seat : undefined;
    const twin = twins.get(node.on);
    const on = here ? here.hosts[0]! : (twin ?? node.on);
    const also = here ? here.hosts.slice(1) : node.also.map((b) => twins.get(b) ?? b);
    // On a bar that is its own mirror image the station counts from the other side: where the wanted twin has it.
    const along = here && twin === undefined ? here.along : undefined;
    return { ...node, on, also, off: mirrored(node.off), where: where(node.where, along) };
  };
  const where = (said: LandingWhere, along?: number): LandingWhere => {
    if (said.by === "along") return along === undefined ? said : { by: "along", along };
    if (said.by === "toward") {
      const { toward } = said;
      return { by: "toward", toward: toward.kind === "on" ? landing(toward) : free(toward) };
    }
    const near =
      said.near === undefined
        ? {}
        : { near: typeof said.near === "string" ? OTHER[said.near] : mirrored(said.near) };
    return { ...said, value: said.axis === "y" ? -said.value : said.value, ...near };
  };
  const nodes = original.path.map((node, i): PathNode => {
    const seat = i === 0 ? wanted.seat.A : i === original.path.length - 1 ? wanted.seat.B : undefined;
    if (node.kind === "plate") {
      plates[node.plate] = mirroredPlate(job.plates[node.plate]!);
      return node;
    }
    return node.kind === "on" ? landing(node, seat) : free(node);
  });
  const { follow } = original;
  const side = follow && (typeof follow.side === "string" ? follow.side : mirrored(follow.side));
  const followed = follow && side ? { ...follow, bar: twins.get(follow.bar) ?? follow.bar, side } : undefined;
  const { follow: _, ...rest } = original;
  return {
    path: { ...rest, label: bar.label, path: nodes, ...(followed ? { follow: followed } : {}) },
    plates,
  };
}
