import { placeAt } from "../../bar/index.ts";
import { cross, len, sub, unit, type Vec } from "../../space/index.ts";
import { contactsOf, mobilityOf } from "../joint/index.ts";
import { checker, type FitBar, type Over, type Pose, SEAT, solidOf, standing } from "../scene/index.ts";
import { advance, type MotionTask, SEARCH_TOUCH, type Swung, swungClear } from "../way/index.ts";

/** Where a bar that is too long (or stands open) comes to rest among its hosts. */
export interface Rests {
  /** How far short of its seat it stops on its way in along its slide (mm); absent where it does not slide. */
  readonly short?: number;
  /** Where it does not slide: how far it stands swung off its seat. */
  readonly swung?: Swung;
}

/**
 * How an end left long shows when the bar is offered up: a bar that slides in stops short of its seat; one that does
 * not stands askew until it is nearly right. Units: `over` mm an end (negative: a gap). Against its hosts alone.
 * `short` is exact to 0.001 mm (halving along the slide that a true bar has); `swung` is a search (swungClear).
 */
export function restsAt(own: FitBar, over: Over, stop: () => boolean = () => false): Rests {
  const { bar, copes, hosts } = own;
  const mobility = mobilityOf(bar, contactsOf(bar, copes, hosts));
  const solid = solidOf(bar, copes, over);
  const all = [...new Set([...hosts.A, ...hosts.B])];
  const scene = { obstacles: all.map(standing) };
  const check = checker(solid, scene);
  const far = 4 * solid.radius + 200;
  for (const d of mobility.slides) {
    const at = (t: number): Pose => ({ at: [d[0] * t, d[1] * t, d[2] * t], turn: SEAT.turn });
    const stride = { keep: -SEARCH_TOUCH, step: 0.2, asked: { cap: 50 } };
    const got = advance(check, solid.reach, at(far), SEAT, stride);
    if (got.reached === 0) continue;
    let lo = 0;
    let hi = far * (1 - got.reached);
    if (got.reached === 1) return { short: 0 };
    while (hi - lo > 1e-3) {
      const m = (lo + hi) / 2;
      if (check(at(m), { cap: 1 }).least >= 0) hi = m;
      else lo = m;
    }
    return { short: hi };
  }
  const axis = planeOf(own);
  if (!axis) return {};
  const task: MotionTask = {
    solid,
    scene,
    check,
    ends: [bar.centreline.start, bar.centreline.finish],
    hosts: scene.obstacles.map(() => true),
    allowed: new Float64Array(scene.obstacles.length),
    tips: [],
    most: Infinity,
    stop,
  };
  const swung = swungClear(task, axis);
  return swung ? { swung } : {};
}

/** Square to the plane of the bar and the first of its hosts (length 1); none where they run one way. */
function planeOf({ bar, hosts }: FitBar): Vec | undefined {
  const end = hosts.A[0] ? "A" : "B";
  const host = hosts[end][0];
  const seat = bar.seat[end];
  if (!host || seat.kind !== "on") return undefined;
  const { start, finish } = bar.centreline;
  const normal = cross(sub(finish, start), placeAt(host.centreline, seat.along).dir);
  return len(normal) > 1e-6 ? unit(normal) : undefined;
}
