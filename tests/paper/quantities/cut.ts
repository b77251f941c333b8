import type { Place } from "../scan.ts";
import type { BarFacts, End } from "../second/index.ts";
import { halfTurn } from "../second/vec.ts";
import { type Answer, claim, DEG, FOUND, GRAZING, mm, words } from "./answer.ts";
import { ofCrowd } from "./crowd.ts";

export function ofCut(f: BarFacts, end: End, quantity: string, place: Place): Answer {
  const notch = f.notch(end);
  if (!notch) return quantity === "exact" || quantity === "useWrap" ? words("") : undefined;
  const { cut, hole, fit } = notch;
  const { saws } = f.job;
  const { rho } = f.cope[end].joint;
  const found = FOUND + 1.5 * notch.loose;
  const loose = f.cope[end].misses.length > 0 ? GRAZING : notch.onAxis ? 0.001 : found;
  if (quantity === "exact") return words(notch.exact ? "yes" : "no");
  if (quantity === "useWrap") return words(notch.useWrap ? "yes" : "no");
  if (quantity === "cut.none") return claim(cut === undefined && notch.doubt === undefined);
  if (quantity.startsWith("crowd.")) return ofCrowd(f, end, quantity, place);
  if (!cut || !hole) return undefined;
  const phi = halfTurn(cut.clock);
  const gapAt = (read: number): boolean =>
    fit === undefined
      ? read === 0
      : Math.abs(fit.gaps[Math.round(read) % 360]! - fit.gap) < 0.02 + notch.loose;
  switch (quantity) {
    case "cut.saw":
      // a saw that the shop has, or the host's own size where it names none
      if (notch.doubt !== undefined) return words(notch.doubt);
      return notch.onAxis || saws.length === 0 || saws.some((d) => Math.abs(d - 2 * cut.radius) < 1e-6)
        ? mm(2 * cut.radius)
        : words("a saw at hand");
    case "cut.exact":
      return claim(notch.exact);
    case "cut.inexact":
      return claim(!notch.exact);
    case "cut.flush":
      return claim(notch.onAxis && !notch.exact);
    case "cut.notch":
      return mm(cut.notch, 0.0011);
    case "cut.clockAbs":
      return mm(Math.abs(phi), 0.002);
    case "cut.clockWay":
      return words(phi >= 0 ? "counter-clockwise" : "clockwise");
    case "cut.square":
      return claim(cut.notch === 0 || cut.notch < 1e-6);
    case "cut.round":
      return mm((Math.abs(phi) / DEG) * rho, 0.002);
    case "cut.offset":
      return mm(cut.offset, 0.001);
    case "cut.offsetAbs":
      return mm(Math.abs(cut.offset), 0.001);
    case "cut.noOffset":
      return claim(Math.abs(cut.offset) < 0.006);
    case "cut.offsetWay":
      return words(cut.offset > 0 ? "counter-clockwise" : "clockwise");
    case "cut.offsetSideAbs":
      return mm(Math.abs(halfTurn(cut.clock + Math.sign(cut.offset) * 90)), 0.002);
    case "cut.offsetSideWay":
      return words(halfTurn(cut.clock + Math.sign(cut.offset) * 90) > 0 ? "counter-clockwise" : "clockwise");
    case "hole.beyond":
      return mm(hole.beyond, loose);
    case "hole.beyondAbs":
      return mm(Math.abs(hole.beyond), loose);
    case "hole.on":
      return claim(Math.abs(hole.beyond) < 0.006);
    case "hole.out":
      return claim(hole.beyond > 0);
    case "hole.in":
      return claim(hole.beyond < 0);
    case "hole.sawn":
      return mm(hole.fromSawn, loose);
    case "hole.sawnAbs":
      return mm(Math.abs(hole.fromSawn), loose);
    case "hole.inside":
      return claim(hole.fromSawn >= -0.006);
    case "hole.off":
      return claim(hole.fromSawn < 0);
    case "hole.bend":
      return mm(hole.fromBend, loose);
    case "hole.noBend":
      return claim(hole.fromBend === undefined);
    case "gap":
      return mm(fit?.gap ?? 0, found);
    case "gapAt":
      return { accepts: gapAt };
    case "standsOff":
      return mm(fit?.standsOff, found);
    case "most":
      return mm(fit?.most, found);
    case "mostAt":
      return { accepts: (read) => leftAt(f, end, Math.round(read)) > (fit?.most ?? 0) - 0.02 };
    case "fromShallower":
      return mm(notch.steps!.fromShallower, found);
    case "fromSteeper":
      return mm(notch.steps!.fromSteeper, found);
    case "rule.holds":
      return claim(notch.steps!.holds);
    case "rule.fails":
      return claim(!notch.steps!.holds);
    case "leave":
      return mm(notch.steps!.leave, found);
    case "range.low":
      return mm(notch.steps!.range[0], 0.002);
    case "range.high":
      return mm(notch.steps!.range[1], 0.002);
    default:
  }
  if (!quantity.startsWith("step.") || !notch.steps) return undefined;
  const { steps } = notch.steps;
  const step = steps[Number(place.cut) - 1];
  if (!step) return undefined;
  const side = Math.abs(halfTurn(step.gapAt));
  const open = side < 45 ? "heel" : side > 135 ? "toe" : "flank";
  switch (quantity) {
    case "step.final":
      return claim(Number(place.cut) === steps.length);
    case "step.early":
      return claim(Number(place.cut) < steps.length);
    case "step.notch":
      return mm(step.notch, 0.002);
    case "step.sawn":
      return mm(Math.abs(hole.fromSawn - step.outboard), found);
    case "step.inside":
      return claim(hole.fromSawn - step.outboard >= -0.006);
    case "step.off":
      return claim(hole.fromSawn - step.outboard < 0.006);
    case "step.beyond":
      return mm(Math.abs(hole.beyond + step.outboard), found);
    case "step.out":
      return claim(hole.beyond + step.outboard > -0.011);
    case "step.short":
      return claim(hole.beyond + step.outboard < 0);
    case "step.outboard":
      return mm(step.outboard, found);
    case "step.standsOff":
      return mm(step.standsOff, found);
    case "step.gap":
      return mm(step.gap, found);
    case "step.open":
      return words(open);
    case "step.toeTouches":
      return claim(open === "heel");
    case "step.heelTouches":
      return claim(open === "toe");
    case "step.flankOpen":
      return claim(open === "flank");
    case "step.seated":
      return claim(notch.onAxis && Number(place.cut) === steps.length);
    default:
      return undefined;
  }
}

function leftAt(f: BarFacts, end: End, phi: number): number {
  const { cut, fit } = f.notch(end)!;
  if (!cut || !fit) return 0;
  // the metal left square to the host, on the outside or at the bore
  return Math.max(
    ...f.walls(end).map(({ rho, back, sine }) => {
      const at = ((phi % 360) + 360) % 360;
      const side = rho * Math.sin((at - cut.clock) / DEG) - cut.offset;
      const gamma = (90 - cut.notch) / DEG;
      const saw =
        (Math.sqrt(Math.max(0, cut.radius ** 2 - side * side)) +
          rho * Math.cos((at - cut.clock) / DEG) * Math.cos(gamma)) /
          Math.sin(gamma) +
        fit.centre;
      return (back[at]! - saw) * sine[at]!;
    }),
  );
}
