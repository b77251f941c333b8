import { placeAt } from "../../bar/index.ts";
import { bar as barQuantity } from "../../findings/index.ts";
import type { LandingNode, LandingWhere } from "../../job/types.ts";
import { add, mirrored } from "../../space/index.ts";
import { along } from "./along.ts";
import { type Landing, type LandingBy, type Placing, type PlacingOf, SQUARE } from "./kind.ts";
import { plane } from "./plane.ts";
import { toward } from "./toward.ts";

/** An end that lands on another bar, by whichever way it says where. */
export function landing(placingOf: PlacingOf): Placing<LandingNode> {
  const ways: { readonly [By in LandingWhere["by"]]: LandingBy<Extract<LandingWhere, { by: By }>> } = {
    along,
    plane,
    toward: toward(placingOf),
  };
  const wayOf = ({ where }: LandingNode): LandingBy => ways[where.by];
  const within = (node: LandingNode) => wayOf(node).inner?.(node.where);
  return {
    resolve(node, around) {
      const host = around.hosts(node.on);
      const { place, bar } = around;
      const fail: Landing["fail"] = (code, values) => ({
        seat: SQUARE,
        findings: [{ code, place, bar, values: { host: barQuantity(node.on), ...values } }],
      });
      if (!host) return fail("host-without-geometry", {});
      const line = host.centreline;
      const land: Landing["land"] = (along, findings = []) => ({
        at: add(placeAt(line, along).at, node.off),
        seat: { kind: "on", hosts: [node.on, ...node.also], along, off: node.off },
        findings,
      });
      return wayOf(node).land(node.where, { node, line, around, fail, land });
    },
    mirrored(node, by) {
      const { twins, seat } = by;
      const twin = twins.get(node.on);
      const [on = twin ?? node.on, ...also] = seat?.kind === "on" ? seat.hosts : [];
      return {
        ...node,
        on,
        also: seat?.kind === "on" ? also : node.also.map((bar) => twins.get(bar) ?? bar),
        off: mirrored(node.off),
        where: wayOf(node).mirrored(node.where, by, twin === undefined ? on : undefined),
      };
    },
    hosts(node) {
      const inner = within(node);
      return [node.on, ...(inner ? (placingOf(inner).hosts?.(inner) ?? []) : [])];
    },
    points(node) {
      const inner = within(node);
      return inner ? (placingOf(inner).points?.(inner) ?? []) : [];
    },
    from(node, job) {
      const inner = within(node);
      return inner ? (placingOf(inner).from?.(inner, job) ?? []) : [];
    },
  };
}
