import type { Wanted } from "../figure.ts";
import type { Place } from "../scan.ts";
import type { BarFacts, Second } from "../second/index.ts";
import type { Node } from "../second/job.ts";
import type { V } from "../second/vec.ts";
import { type Answer, list, mm, words } from "./answer.ts";

const inLine = (names: string[]): string =>
  names.length < 2 ? names.join() : `${names.slice(0, -1).join(", ")} and ${names.at(-1)}`;

/** A point's ID of plain words and hyphens as it is read out; any other is what was typed. */
const spoken = (id: string): string =>
  /^[a-z0-9-]+$/.test(id) ? `${id[0]?.toUpperCase()}${id.slice(1).split("-").join(" ")}` : id;

/** The path as typed: what a card says that it was figured from. */
export function ofNodes(second: Second, f: BarFacts, quantity: string, place: Place): Answer {
  if (!quantity.startsWith("node.")) return undefined;
  const key = place.node as string | undefined;
  const { path } = second.job.bars[f.laid.own.mirrorOf ?? f.laid.id]!;
  const i = key === "A" ? 0 : key === "B" ? path.length - 1 : Number(key?.slice(7));
  const node = path[i];
  if (!node) return undefined;
  const at = (v: V): Wanted[] => list([...v]);
  const of = (n: Node): Answer => {
    switch (quantity) {
      case "node.at":
        return n.kind === "at" ? at(n.at) : undefined;
      case "node.step":
        return n.kind === "step" ? at(n.step) : undefined;
      case "node.plate":
        return n.kind === "plate" ? words(n.plate) : undefined;
      case "node.plateAt":
        return n.kind === "plate" ? at(second.job.plates[n.plate]!.at) : undefined;
      case "node.point":
        return n.kind === "point" ? words(spoken(n.point)) : undefined;
      case "node.pointAt":
        return n.kind === "point" ? at(second.job.points[n.point]!) : undefined;
      case "node.by":
        return n.kind === "point" ? at(n.by) : undefined;
      default:
    }
    if (n.kind !== "on") return undefined;
    switch (quantity) {
      case "node.on":
        return words(second.called(n.on));
      case "node.along":
        return n.along === undefined ? undefined : mm(Math.abs(n.along));
      case "node.alongEnd":
        return words((n.along ?? 0) < 0 ? "B" : "A");
      case "node.axis":
        return n.axis === undefined ? undefined : words("xyz"[n.axis]);
      case "node.value":
        return mm(n.value);
      case "node.side":
        return typeof n.near === "string" ? words(n.near) : undefined;
      case "node.near":
        return typeof n.near === "object" ? at(n.near) : undefined;
      case "node.off":
        return at(n.off);
      case "node.also":
        return words(inLine(n.also.map((id) => second.called(id))));
      default:
        return undefined;
    }
  };
  const toward = node.kind === "on" ? node.toward : undefined;
  if (quantity.startsWith("node.toward.")) {
    quantity = quantity.replace("toward.", "");
    return toward && of(toward);
  }
  return of(node);
}
