import { type Feeding, partBent, setFor } from "./bender.ts";
import type { JobOf } from "./job.ts";
import type { Laid } from "./layout.ts";
import { placeOn } from "./line.ts";
import { across, inner, minus, outer, times, toOne, type V } from "./vec.ts";

/** The machine's own room behind the die, and the room of a person beside the tube and over the floor (mm). */
const MACHINE = 300;
export const BESIDE = 600;
const TALL = 1950;
const HEIGHTS = [600, 1200] as const;
const DEG = Math.PI / 180;

export interface SwingOf {
  bend: number;
  reach: number;
}

/**
 * How far what is ahead of the die comes back past it while each bend is made, within reach of who works there: the
 * bar turned about the die's axis step by step, place by place. Good to a few millimetres.
 */
export function swingsOf(laid: Laid, feed: Feeding, job: JobOf): SwingOf[] {
  const r = laid.tube.od / 2;
  const low = -(job.height ?? HEIGHTS[1]) - r;
  const high = TALL - (job.height ?? HEIGHTS[0]) + r;
  return feed.line.bends.map((bend, i) => {
    const shape = partBent(feed, i);
    const { centre, dir } = bend.part;
    const forward = times(dir, -1);
    const inside = toOne(across(feed.line.parts[2 * i + 2]!.dir, dir));
    const right = job.turnSide === "right" ? inside : times(inside, -1);
    const up: V = outer(right, forward);
    const angle = bend.angle / DEG;
    const through = Math.max(angle, setFor(laid.die, angle)?.set ?? angle);
    const made = shape.bends[i]!.start;
    let reach = 0;
    const steps = Math.ceil(made / 2);
    for (let k = 0; k <= steps; k++) {
      const v = minus(placeOn(shape, (made * k) / steps).at, centre);
      if (inner(v, up) < low || inner(v, up) > high) continue;
      const [x, y] = [inner(v, forward), inner(v, inside)];
      if (Math.hypot(x, y) < reach) continue;
      for (let a = 0; a <= through + 1e-9; a += Math.min(0.1, Math.max(1e-3, through - a))) {
        const [c, s] = [Math.cos(a * DEG), Math.sin(a * DEG)];
        const back = -(x * c - y * s);
        const aside = bend.part.r + x * s + y * c;
        if (Math.abs(aside) <= BESIDE + r && back > reach) reach = back;
        if (through - a < 1e-9) break;
      }
    }
    return { bend: feed.numbers[i]!, reach: reach > MACHINE ? reach : 0 };
  });
}
