// biome-ignore-all lint/style/noNonNullAssertion: a way with less than two poses is turned away first; a sweep that met something names it.
import { add, scale, unit } from "../../space/index.ts";
import type { Mobility } from "../joint/index.ts";
import {
  checker,
  type FitBar,
  type Gate,
  MERE_TOUCH,
  type Obstacle,
  type Over,
  type Pose,
  type Scene,
  SEAT,
  type Solid,
} from "../scene/index.ts";
import {
  farIn,
  type How,
  isOutside,
  nudged,
  outsideOf,
  type Push,
  pressed,
  sweep,
  TOUCH,
  throughOf,
} from "../way/index.ts";
import type { Effort, Joint, Judged } from "./judged.ts";
import { whyGoes } from "./why.ts";

/** What one bar is judged against. */
export interface Setting {
  readonly tacked: readonly FitBar[];
  /** Plates, body, driver, floor. */
  readonly parts: readonly Obstacle[];
  readonly gates?: readonly Gate[];
  readonly effort: Effort;
  /** Copes cut with a gap (negative) at either end (mm). */
  readonly over?: Over;
  /** How its joints hold it, where that is known (its own shape and hosts decide it). */
  readonly joint?: Joint;
  /** Ways that may still be good: each is checked by a sweep before anything is searched. */
  readonly tries?: readonly Judged[];
  /** The answer where none of these is good; else it is searched for. */
  readonly otherwise?: Judged;
  /** Told when a search begins: nothing known was of use. */
  readonly searching?: () => void;
}

/** One bar's case: all that the ways of judging it share. */
export interface Case {
  readonly own: FitBar;
  readonly setting: Setting;
  readonly solid: Solid;
  readonly scene: Scene;
  readonly mobility: Mobility;
  readonly hostIds: ReadonlySet<string>;
  readonly fouls: readonly Foul[];
  readonly base: Omit<Judged, "goesIn" | "joint" | "why">;
  /** How its joints hold it; `freed`: it was seen to leave them with nothing sprung. */
  readonly joint: (freed: boolean) => Joint;
}

/** Something that a bar overlaps at its own seat. */
export interface Foul {
  readonly id: string;
  readonly by: number;
  readonly index: number;
}

/** A way that was good once, if it still is: carried on to the outside where more stands now, and swept. */
export function tried(all: Case, known: Judged): Judged | undefined {
  const { solid, scene } = all;
  if (known.way.length < 2) return undefined;
  const outside = outsideOf(solid, scene);
  const first = known.way[0]!;
  const away = add(first.at, scale(known.way[1]!.at, -1));
  const poses = isOutside(solid, outside, first)
    ? known.way
    : [further(all, first, Math.hypot(...away) > 1 ? unit(away) : [0, 0, 1]), ...known.way];
  const judged = wentIn(all, poses, known.leaving, known.pushes, known.how, known.joint);
  return "met" in judged ? undefined : judged;
}

function further({ solid, scene }: Case, from: Pose, d: readonly [number, number, number]): Pose {
  const far = farIn(solid, outsideOf(solid, scene), from, d);
  return { at: add(from.at, scale(d, far)), turn: from.turn };
}

/** What the check of a way met, where it is none. */
interface Met {
  readonly met: { readonly id: string; readonly by: number };
}

/** The answer for a way, after its sweep, and nudged where it touches; what the sweep met, where it is none. */
export function wentIn(
  all: Case,
  found: readonly Pose[],
  leaving: number,
  pushes: readonly Push[],
  how: How | undefined,
  joint: Joint,
): Judged | Met {
  const { own, setting, solid, mobility, fouls, base } = all;
  const wanted = Math.max(leaving, ...fouls.map((f) => f.by));
  // Hundredths are no springing.
  const springs = wanted > MERE_TOUCH;
  const enough = (springs ? wanted : 0) + TOUCH;
  const tacked = setting.tacked.map((t) => t.bar);
  const over = setting.over ?? {};
  const follow = (way: readonly Pose[], whole: boolean) =>
    sweep(own.bar, own.copes, way, tacked, setting.parts, { over, enough, all: whole });
  let poses = found;
  let swept = follow(found, false);
  if (swept.overlap > enough && swept.overlap <= enough + WORTH) {
    const task = {
      ...pressing(all),
      check: checker(solid, all.scene),
      tips: [],
      most: 0,
      stop: setting.effort.stop,
    };
    const allowed = all.scene.obstacles.map((o) => (all.hostIds.has(o.id) && springs ? wanted : 0));
    const aside = { ...task, allowed: Float64Array.from(allowed) };
    ({ poses, swept } = nudged(aside, found, (way) => follow(way, true), enough));
  }
  const { overlap } = swept;
  if (overlap > enough - TOUCH + MERE_TOUCH) return { met: { id: swept.deepest!, by: overlap } };
  const touches = !springs && overlap > TOUCH ? { touches: { id: swept.deepest!, by: overlap } } : undefined;
  // What the sweep met beyond the springing stated is springing too.
  const more = springs && overlap > enough ? overlap - wanted : 0;
  const atSeat = leaving >= wanted ? pushes : pressed(pressing(all), SEAT);
  return {
    ...base,
    goesIn: springs ? "spring" : touches ? "touches" : "free",
    joint,
    way: poses,
    ...touches,
    spring: springs ? wanted + more : 0,
    leaving: springs && leaving > 0 ? leaving + more : 0,
    pushes: springs ? atSeat : [],
    ...(how === undefined ? {} : { how }),
    through: throughOf(solid, poses, setting.gates ?? []),
    ...(swept.nearest === undefined
      ? {}
      : { clearance: Math.max(0, swept.clearance), nearest: swept.nearest }),
    why: whyGoes(
      { locked: mobility.locked, how, leaving: springs ? leaving + more : 0, ...touches },
      springs ? base.fouls : [],
      base.past,
      poses,
      solid.reach,
    ),
  };
}

/** A way that overlaps by more than this beyond what is allowed is not one to be nudged (mm). */
const WORTH = 0.5;

/** At the seat everything that it overlaps is pushed. */
const pressing = ({ own, solid, scene }: Case) => ({
  solid,
  scene,
  hosts: scene.obstacles.map((o) => o.kind === "bar"),
  allowed: new Float64Array(scene.obstacles.length),
  ends: [own.bar.centreline.start, own.bar.centreline.finish] as const,
});
