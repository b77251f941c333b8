import { closestTo } from "../../bar/index.ts";
import { bar as barQuantity, type Finding, mm, text } from "../../findings/index.ts";
import type { TowardWhere } from "../../job/types.ts";
import { SAME_PLACE } from "../../numeric/index.ts";
import { type LandingBy, type PlacingOf, SQUARE } from "./kind.ts";

export const toward = (placingOf: PlacingOf): LandingBy<TowardWhere> => ({
  land(where, { node, line, around, land }) {
    const { place, bar } = around;
    const within = { ...around, place: `${place}.toward`, before: undefined };
    const target = placingOf(where.toward).resolve(where.toward, within);
    if (!target.at) return { seat: SQUARE, findings: target.findings };
    const found = closestTo(line, target.at);
    const findings: Finding[] = [...target.findings];
    const warn = (code: Finding["code"], values: Finding["values"]): void => {
      findings.push({ code, place, bar, values: { host: barQuantity(node.on), ...values } });
    };
    if (found.tie !== undefined) warn("toward-tie", { first: mm(found.s), second: mm(found.tie) });
    if (found.s <= SAME_PLACE) warn("toward-end", { end: text("A") });
    else if (found.s >= line.length - SAME_PLACE) warn("toward-end", { end: text("B") });
    return land(found.s, findings);
  },
  mirrored({ toward }, by) {
    const image = placingOf(toward).mirrored(toward, { ...by, seat: undefined });
    if (image.kind === "plate") throw new Error("toward: a plate is no target");
    return { by: "toward", toward: image };
  },
  inner: (where) => where.toward,
});
