import type { Place } from "../scan.ts";
import type { BarFacts, End, Second } from "../second/index.ts";
import { halfTurn } from "../second/vec.ts";
import { type Answer, claim, DEG, GRAZING, list, mm, near, words } from "./answer.ts";
import { ontoOf } from "./onto.ts";

export function ofEnd(second: Second, f: BarFacts, end: End, quantity: string, place: Place): Answer {
  const cope = f.cope[end];
  const { joint } = cope;
  const { zeroLine } = joint.frame;
  const bends = f.laid.line.bends;
  switch (quantity) {
    case "end":
      return words(end);
    case "onto":
      return words(ontoOf(second, f, end));
    case "hostLabels":
      return words(inLine(joint.onto.map((id) => second.called(id))));
    case "hostLabel":
      return words(joint.onto[0] === undefined ? undefined : second.called(joint.onto[0]));
    case "hostNames":
      return words(joint.onto.map((id) => second.called(id)).join(", "));
    case "ontoIds":
      return words(joint.onto.join(" + "));
    case "kind":
      return words(joint.kind);
    case "zeroId":
      return words(zeroLine);
    case "zero":
      return words(
        zeroLine === "up"
          ? "top of the tube in the car"
          : zeroLine === "forward"
            ? "front of the tube in the car"
            : `outside of ${zeroLine}`,
      );
    case "zeroShort":
      return words(
        zeroLine.startsWith("bend")
          ? `outside of ${zeroLine}`
          : `${zeroLine === "up" ? "top" : "front"} in the car`,
      );
    case "half":
      return words(zeroLine === "up" ? "bottom" : zeroLine === "forward" ? "rear" : `inside of ${zeroLine}`);
    case "trim":
      return mm(f.allowance(end));
    case "least":
      return mm(cope.least, cope.misses.length > 0 ? GRAZING : undefined);
    case "greatest":
      // the table takes it from lines a degree apart
      return mm(cope.greatest, 0.01);
    case "shortLong":
      return mm(cope.greatest - cope.least, 0.01);
    case "tilt":
      return mm(joint.tilt);
    case "tilt.square":
      return claim(joint.tilt < 0.01);
    case "long.abs":
      return mm(Math.abs(halfTurn(joint.longSide)), 0.002);
    case "long.way":
      return words(halfTurn(joint.longSide) >= 0 ? "counter-clockwise" : "clockwise");
    case "long.round":
      return mm((Math.abs(halfTurn(joint.longSide)) / DEG) * (f.laid.tube.od / 2), 0.002);
    case "side":
      return f.side(end) === undefined ? undefined : { accepts: near(f.side(end)!, 0.003) };
    case "offSquare":
      return joint.kind === "on" ? mm(f.notch(end)?.cut?.notch) : mm(joint.tilt);
    case "base.sawn":
      return mm(baseOf(place) + f.allowance(end));
    case "base.bend": {
      const bend = end === "A" ? bends[0]! : bends[bends.length - 1]!;
      const straight = end === "A" ? bend.start : f.laid.line.length - bend.end;
      return mm(straight - cope.least - baseOf(place));
    }
    case "base.intoBend": {
      const bend = end === "A" ? bends[0]! : bends[bends.length - 1]!;
      const straight = end === "A" ? bend.start : f.laid.line.length - bend.end;
      return mm(-(straight - cope.least - baseOf(place)));
    }
    case "nearBend":
      return mm(end === "A" ? 1 : bends.length);
    case "misses":
      return cope.misses.flatMap(([a, b]) => list([a, b]).map((w) => ({ ...w, slack: 0.06 })));
    case "missed":
      return mm(
        cope.misses.reduce((sum, [a, b]) => sum + ((((b - a) % 360) + 360) % 360), 0),
        0.1,
      );
    case "gamma":
      return mm(joint.hosts[0] && joint.hosts[0].gamma * DEG);
    case "hostOd":
      return mm(joint.hosts[0] && 2 * joint.hosts[0].H);
    case "nearEnd.distance":
      return mm(f.nearEnd(end)?.distance);
    case "nearEnd.needed":
      return mm(f.nearEnd(end)?.needed);
    case "bentInJoint":
      return claim(cope.bentInJoint);
    case "bentInJoint.bend":
      return cope.bentInJoint ? mm(end === "A" ? 1 : bends.length) : undefined;
    case "steep":
      return mm(joint.hosts[0] && 90 - joint.hosts[0].gamma * DEG);
    default:
      return undefined;
  }
}

const baseOf = (place: Place): number => place.base as number;

const inLine = (names: readonly string[]): string =>
  names.length < 2 ? names.join() : `${names.slice(0, -1).join(", ")} and ${names[names.length - 1]}`;
