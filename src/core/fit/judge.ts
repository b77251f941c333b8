import { add, scale, unit } from "../space/index.ts";
import { advance, SEARCH_TOUCH, TOUCH } from "./advance.ts";
import { type Checker, checker } from "./clearance.ts";
import { contactsOf } from "./contacts.ts";
import { jointOf, slidesOf, standing } from "./joint.ts";
import type { Effort, FitBar, Joint, Judged, Push } from "./judged.ts";
import { type Mobility, mobilityOf } from "./mobility.ts";
import { farIn, isOutside, outsideOf } from "./outside.ts";
import { between, type Pose, SEAT } from "./pose.ts";
import { type Leave, pressed } from "./push.ts";
import type { Obstacle, Scene } from "./scene.ts";
import { type Over, type Solid, solidOf } from "./solid.ts";
import { leastSpring } from "./spring.ts";
import { sweep } from "./sweep.ts";
import { type Gate, throughOf } from "./through.ts";
import { findWay } from "./way.ts";
import { whyFouled, whyGoes, whyMissing, whyNot, whyUnchecked } from "./words.ts";

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
interface Case {
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

/**
 * Judges one bar against the bars tacked so far and the parts that stand (plates, body, driver, floor).
 *
 * Its joints first (`mobilityOf`, then the straight slides followed against the hosts alone), then the way out
 * (`findWay`), which read backwards is the way in. Where the joints or the way do not let it go, the least springing
 * of its hosts is sought (`leastSpring`). A way is returned only after an independent sweep (`sweep`) found no more
 * overlap than TOUCH beyond the springing stated. "no" is the result of a search unless `proved` and nothing gives.
 */
export function judge(own: FitBar, setting: Setting): Judged {
  const { bar, copes, hosts } = own;
  const { tacked, parts, effort, over } = setting;
  const after = tacked.map((t) => t.bar.id);
  const mobility = mobilityOf(bar, contactsOf(bar, copes, hosts));
  const solid = solidOf(bar, copes, over);
  const slides = slidesOf(own, solid, mobility);
  const loose = (over?.A ?? 0) < 0 || (over?.B ?? 0) < 0;
  const known: Mobility = loose ? { ...mobility, locked: false } : mobility;
  const hostIds = new Set([...hosts.A, ...hosts.B].map((h) => h.id));
  const scene: Scene = { obstacles: [...tacked.map((t) => standing(t.bar)), ...parts] };
  const base: Case["base"] = {
    bar: bar.id,
    after,
    way: [],
    spring: 0,
    leaving: 0,
    pushes: [],
    lips: mobility.lips,
    proved: known.locked,
    blockedBy: [],
    fouls: [],
    through: [],
    ...(slides[0] ? { slides: slides[0] } : {}),
  };
  const joint = (freed: boolean): Joint =>
    setting.joint ?? jointOf(own, solid, known, slides, freed, effort.stop);
  const missing = [...hostIds].filter((h) => !after.includes(h));
  if (missing.length > 0) {
    return {
      ...base,
      goesIn: "no",
      joint: joint(false),
      proved: true,
      blockedBy: missing,
      why: whyMissing(missing),
    };
  }
  const fouls = foulsOf(solid, scene);
  const worst = fouls.reduce<Foul | undefined>((a, f) => (a && a.by >= f.by ? a : f), undefined);
  const said = fouls.map(({ id, by }) => ({ id, by }));
  if (worst && worst.by > effort.most) {
    const blockedBy = fouls.map((f) => f.id);
    const why = whyFouled(worst);
    return { ...base, goesIn: "no", joint: joint(false), proved: true, fouls: said, blockedBy, why };
  }
  const all: Case = {
    own,
    setting,
    solid,
    scene,
    mobility: known,
    hostIds,
    fouls,
    base: { ...base, fouls: said },
    joint,
  };
  for (const known of setting.tries ?? []) {
    const judged = tried(all, known);
    if (judged) return judged;
  }
  if (setting.otherwise) return { ...setting.otherwise, after };
  setting.searching?.();
  const judged = searched(all, slides);
  return judged.goesIn === "no" && effort.stop()
    ? { ...judged, stopped: true, proved: false, why: "the search was stopped before it was done" }
    : judged;
}

function searched(all: Case, slides: Mobility["slides"]): Judged {
  const { own, setting, solid, scene, mobility, hostIds, fouls, base } = all;
  const { effort } = setting;
  const give = new Float64Array(scene.obstacles.length);
  for (const f of fouls) give[f.index] = f.by + 0.004;
  const check = checker(solid, scene);
  const task = { solid, scene, check, give, seed: effort.seed, nodes: effort.nodes, stop: effort.stop };
  let found = findWay(task, slides, startsOf(all, check, give));
  let leave: Leave | undefined;
  // Out of its joints already, a bar gains by springing only what its hosts can give.
  if (!found.ok && !(found.loose && (hostIds.size === 0 || effort.most <= SEARCH_TOUCH))) {
    leave = leastSpring({
      solid,
      scene,
      check,
      ends: [own.bar.centreline.start, own.bar.centreline.finish],
      hosts: scene.obstacles.map((o) => hostIds.has(o.id)),
      allowed: give,
      tips: mobility.tips,
      most: effort.most,
      stop: effort.stop,
    });
    if (leave) {
      const more = leave.spring + 0.002;
      const sprung = give.map((g, k) => (hostIds.has(scene.obstacles[k]!.id) ? g + more : g));
      const again = findWay({ ...task, give: sprung }, [], [leave.poses]);
      found = again.ok ? again : { ...again, stoppedBy: [...found.stoppedBy, ...again.stoppedBy] };
    }
  }
  const joint = all.joint(leave !== undefined && leave.spring === 0);
  if (!found.ok) {
    const stands = new Set(
      scene.obstacles.filter((o) => o.kind === "plate" && seatedOn(solid, o)).map((o) => o.id),
    );
    const blockedBy = [...new Set(found.stoppedBy)]
      .filter((id) => !hostIds.has(id) && !stands.has(id))
      .slice(0, 4);
    const proved = mobility.locked && !leave && !found.loose;
    const why = whyNot(mobility, joint, mobility.locked, found.loose, blockedBy, effort);
    return { ...base, goesIn: "no", joint, blockedBy, proved, why };
  }
  const went = wentIn(all, found.poses, leave?.spring ?? 0, leave?.pushes ?? [], leave?.how, joint);
  if (typeof went !== "string") return went;
  return { ...base, goesIn: "no", joint, proved: false, blockedBy: [], why: went };
}

/**
 * Where the search may set out from besides: the last part of ways that were good once, so far as it still is clear,
 * whole and cut shorter.
 */
function startsOf(
  { setting, solid }: Case,
  check: Checker,
  give: Float64Array,
): readonly (readonly Pose[])[] {
  const stride = { keep: -SEARCH_TOUCH, step: 0.2, asked: { give, cap: 100 } };
  return (setting.tries ?? []).flatMap((known) => {
    if (known.leaving > 0) return [];
    const back = [...known.way].reverse();
    const clear = back.slice(0, 1);
    for (const to of back.slice(1)) {
      const from = clear[clear.length - 1]!;
      const { reached } = advance(check, solid.reach, from, to, stride);
      if (reached === 1) clear.push(to);
      else {
        if (reached > 0) clear.push(between(from, to, 0.9 * reached));
        break;
      }
    }
    return [1, 0.7, 0.4].map((part) => clear.slice(0, Math.ceil(clear.length * part)));
  });
}

/** A way that was good once, if it still is: carried on to the outside where more stands now, and swept. */
function tried(all: Case, known: Judged): Judged | undefined {
  const { solid, scene } = all;
  if (known.way.length < 2) return undefined;
  const outside = outsideOf(solid, scene);
  const first = known.way[0]!;
  const away = add(first.at, scale(known.way[1]!.at, -1));
  const poses = isOutside(solid, outside, first)
    ? known.way
    : [further(all, first, Math.hypot(...away) > 1 ? unit(away) : [0, 0, 1]), ...known.way];
  const judged = wentIn(all, poses, known.leaving, known.pushes, known.how, known.joint);
  return typeof judged === "string" ? undefined : judged;
}

function further({ solid, scene }: Case, from: Pose, d: readonly [number, number, number]): Pose {
  const far = farIn(solid, outsideOf(solid, scene), from, d);
  return { at: add(from.at, scale(d, far)), turn: from.turn };
}

/** The answer for a way, after its sweep; in words what the sweep met, where it is none. */
function wentIn(
  all: Case,
  poses: readonly Pose[],
  leaving: number,
  pushes: readonly Push[],
  how: string | undefined,
  joint: Joint,
): Judged | string {
  const { own, setting, solid, mobility, fouls, base } = all;
  const spring = Math.max(leaving, ...fouls.map((f) => f.by));
  const enough = spring + TOUCH;
  const tacked = setting.tacked.map((t) => t.bar);
  const over = setting.over ?? {};
  const swept = sweep(own.bar, own.copes, poses, tacked, setting.parts, { over, enough });
  if (swept.overlap > enough) return whyUnchecked(swept.deepest!, swept.overlap);
  const springs = spring > SEARCH_TOUCH;
  const atSeat = leaving >= spring ? pushes : pressed(pressing(all), SEAT);
  return {
    ...base,
    goesIn: springs ? "spring" : "free",
    joint,
    way: poses,
    spring: springs ? spring : 0,
    leaving: springs ? leaving : 0,
    pushes: springs ? atSeat : [],
    ...(how === undefined ? {} : { how }),
    through: throughOf(solid, poses, setting.gates ?? []),
    ...(swept.nearest === undefined ? {} : { clearance: swept.clearance, nearest: swept.nearest }),
    why: whyGoes(mobility.locked, how, leaving, base.fouls, poses, solid.reach),
  };
}

/** At the seat everything that it overlaps is pushed. */
const pressing = ({ own, solid, scene }: Case) => ({
  solid,
  scene,
  hosts: scene.obstacles.map((o) => o.kind === "bar"),
  allowed: new Float64Array(scene.obstacles.length),
  ends: [own.bar.centreline.start, own.bar.centreline.finish] as const,
});

const seatedOn = (solid: Solid, o: Obstacle): boolean =>
  checker(solid, { obstacles: [o] })(SEAT, { cap: 1 }).least < TOUCH;

interface Foul {
  readonly id: string;
  readonly by: number;
  readonly index: number;
}

function foulsOf(solid: Solid, scene: Scene): readonly Foul[] {
  const check = checker(solid, scene);
  if (check(SEAT, { cap: 1 }).least >= -TOUCH) return [];
  return scene.obstacles.flatMap((o, index): Foul[] => {
    const d = checker(solid, { obstacles: [o] })(SEAT, { cap: 1 }).least;
    return d < -TOUCH ? [{ id: o.id, by: -d, index }] : [];
  });
}
