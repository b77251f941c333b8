import type { End } from "../job/types.ts";
import { dot, len, sub, unit } from "../space/index.ts";
import type { Freedom } from "../trestles/index.ts";
import { laidOver, type Pose, put, rolled } from "./pose.ts";
import { asides, axesOf, ENDS, type Ends, offAt, type Spot, spotsOf, type WantedBar } from "./spots.ts";
import { ENTERS, type Judged, judged, settle, type Task } from "./step.ts";
import type { MadeBar } from "./types.ts";

/** A notched bar put where it suits best. */
export interface Seated {
  /** Greatest gap round each end that keeps its notch, square to what it lands on; 0 where nothing is open (mm). */
  readonly gap: Readonly<Partial<Record<End, number>>>;
  /** Tube beyond the long point that is wanted now, at each end (mm); negative: missing. */
  readonly ends: Readonly<Record<End, number>>;
  /** By how much it cannot be: into its hosts, aside of its place, or short where it is to be cut again (mm). */
  readonly fouls: number;
  /** Where it is put, from where it was made. */
  readonly pose: Pose;
}

/** Lines of a rim that the search begins with (one in so many); those between are taken in where they are worse. */
const EVERY = 20;
/** Times that lines between those are taken in, and by how much they must be worse, fouling or open (mm). */
const ROUNDS = 8;
const NEAR = { fouls: 1e-4, gap: 1e-3 };

/**
 * Puts a notched bar so that the greater end's gap is least while nothing enters what it lands on (mm).
 *
 * A rigid motion by a sequence of linear programmes: the distance of each place of the rims from what it is to land on
 * is taken as linear in a small motion, the greatest is made least, and the step is kept where the true one went down;
 * else the next is half as long. An end that is to be cut again must have metal all round beyond its new edge, and no
 * gap. Ends and corners stay within `freedom.aside` of where they are wanted, but along the bar.
 * Range: undefined where a programme finds no step at all. It goes downhill from the bar laid over its wanted place (a
 * straight one rolled to where its notches suit best), and does not look for another rest far from there.
 */
export function seated(made: MadeBar, wanted: WantedBar, how: Ends, freedom: Freedom): Seated | undefined {
  const off = { A: offAt(wanted, "A", how.A), B: offAt(wanted, "B", how.B) };
  const stays = asides(made, wanted.bar, freedom.aside);
  const lever = Math.max(1, len(sub(made.line.finish, made.line.start)) / 2);
  const task = { how, off, stays, lever };
  const all = ENDS.flatMap((end) => spotsOf(made, end));
  let spots: readonly Spot[] = all.filter((_, i) => i % EVERY === 0);
  let pose = firstPose(made, wanted, spots, task);
  let now: Judged | undefined;
  for (let round = 0; round < ROUNDS; round++) {
    const found = settle(spots, task, pose);
    if (!found) return undefined;
    pose = found.pose;
    now = judged(all, task, pose);
    const beside = worstBeside(all, how, now.offs, found.now);
    if (beside.length === 0) break;
    spots = [...spots, ...beside];
  }
  if (!now) return undefined;
  const { gap: most, fouls } = now;
  const gap = Object.fromEntries(ENDS.filter((e) => how[e] === "keep").map((e) => [e, Math.max(0, most[e])]));
  return {
    gap,
    ends: { A: beyond(all, wanted, "A", pose), B: beyond(all, wanted, "B", pose) },
    fouls,
    pose,
  };
}

/** The bar laid over its wanted place; a straight one that keeps a notch by whichever roll suits its notches best. */
function firstPose(made: MadeBar, wanted: WantedBar, spots: readonly Spot[], task: Task): Pose {
  const laid = laidOver(made.line, wanted.bar.centreline);
  if (made.line.bends.length > 0 || ENDS.every((e) => task.how[e] === "cut")) return laid;
  const axis = unit(sub(put(laid, made.line.finish), put(laid, made.line.start)));
  const at = (pose: Pose): number => judged(spots, task, pose).merit;
  let [best, least] = [laid, at(laid) - ROLLS];
  for (let roll = 15; roll < 360; roll += 15) {
    const pose = rolled(laid, axis, (roll * Math.PI) / 180);
    const merit = at(pose);
    if (merit < least) [best, least] = [pose, merit];
  }
  return best;
}

/** A straight bar is not rolled for less than this (as gap and fouling count, mm). */
const ROLLS = 1;

/** Places of the rims that are worse than all that were looked at: of each run of such, the worst. */
function worstBeside(
  all: readonly Spot[],
  how: Ends,
  offs: readonly number[],
  { gap, fouls }: Judged,
): readonly Spot[] {
  const over = all.map(({ end, isOuter }, i): number => {
    const d = offs[i] ?? 0;
    if (how[end] === "cut") return (d - fouls) / NEAR.fouls;
    return Math.max(isOuter ? (d - gap[end]) / NEAR.gap : -1, (-d - ENTERS - fouls) / NEAR.fouls);
  });
  const value = (i: number): number => over[i] ?? -1;
  return all.filter((_, i) => value(i) > 1 && value(i) >= value(i - 1) && value(i) > value(i + 1));
}

/** Where the made bar's long point stands beyond the one wanted (mm), along the wanted end. */
function beyond(all: readonly Spot[], wanted: WantedBar, end: End, pose: Pose): number {
  const frame = axesOf(wanted, end);
  let tip = Number.NEGATIVE_INFINITY;
  for (const s of all)
    if (s.end === end) tip = Math.max(tip, dot(sub(put(pose, s.at), frame.landing), frame.out));
  return tip + wanted.copes[end].cope.least;
}
