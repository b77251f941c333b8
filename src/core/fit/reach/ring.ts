import type { End } from "../../job/types.ts";
import { add, cross, len, scale, sub, turn, unit, type Vec } from "../../space/index.ts";
import { contactsOf } from "../joint/index.ts";
import { type FitBar, type Obstacle, segmentsTo } from "../scene/index.ts";

/** The part of a torch that must get to a joint (mm): greatest diameter of nozzle and neck, and its length. */
export interface Torch {
  readonly od: number;
  readonly length: number;
}

/** What weld reach is asked about. */
export interface Welding {
  readonly bars: readonly FitBar[];
  /** What stands besides bars, with the roof on or off. */
  readonly parts: (roofOff: boolean) => readonly Obstacle[];
  /** What must get to the joints. */
  readonly torch: Torch;
}

/** Wire from just off the weld to the tip, and the torch behind it. */
export interface Rods {
  readonly wire: Float64Array;
  readonly torch: Float64Array;
}

/** Distance from the nozzle's tip to the weld (mm): common practice, no source. */
const STICK_OUT = 15;
/** How far a torch may lean from the middle of the groove (radians), and in how many directions it is tried. */
const LEANS = [0, 0.3, 0.6];
const ROUND = 6;

/**
 * The places of one joint's ring (the outside rim, every 10°), each as the ways in which a torch may be held to it.
 *
 * Convention: the weld lies in the groove between the host's skin (outward normal h) and the bar's (outward normal b);
 * the torch comes in along the middle of the groove, the direction h + b, or leaning from it by up to 0.6 rad (35°). It
 * is a round rod of the torch's od whose rounded tip is 15 mm off the weld and which is `length` long. Empty where the
 * end lands on nothing.
 */
export function ringOf(own: FitBar, end: End, torch: Torch): readonly (readonly Rods[])[] {
  const { out: axis, landing } = own.copes[end].cope;
  return contactsOf(own.bar, own.copes, own.hosts)
    .filter((c) => c.end === end && c.outer && c.phi % 10 === 0)
    .map((c) => {
      const from = sub(c.at, landing);
      const skin = unit(sub(from, scale(axis, from[0] * axis[0] + from[1] * axis[1] + from[2] * axis[2])));
      return directions(c.normal, skin).map((d) => rodFrom(c.at, d, torch));
    });
}

/** The driver is not in the car when it is welded. */
export const isWelded = (o: Obstacle): boolean => o.kind !== "driver";

/** The middle of the groove and the leans from it; none where the groove is shut. */
function directions(host: Vec, skin: Vec): readonly Vec[] {
  const sum = add(host, skin);
  if (len(sum) < 1e-3) return [];
  const middle = unit(sum);
  const across = cross(host, skin);
  const along = len(across) > 1e-6 ? unit(across) : unit(sub(skin, scale(middle, 0.5)));
  return LEANS.flatMap((lean) =>
    lean === 0
      ? [middle]
      : Array.from({ length: ROUND }, (_, i) =>
          turn(turn(middle, along, lean), middle, (i * 2 * Math.PI) / ROUND),
        ),
  );
}

function rodFrom(p: Vec, d: Vec, torch: Torch): Rods {
  const tip = STICK_OUT + torch.od / 2;
  const wire = Float64Array.from([...add(p, scale(d, 3)), ...add(p, scale(d, tip))]);
  return {
    wire,
    torch: Float64Array.from([...add(p, scale(d, tip)), ...add(p, scale(d, Math.max(tip, torch.length)))]),
  };
}

export const meets = (o: Obstacle, rod: Rods, torch: Torch): boolean =>
  segmentsTo(o, rod.torch, torch.od / 2, 1) <= 0 || segmentsTo(o, rod.wire, 0, 1) <= 0;

export const hits = (rod: Rods, torch: Torch, things: readonly Obstacle[]): boolean =>
  things.some((o) => meets(o, rod, torch));
