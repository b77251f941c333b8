// biome-ignore-all lint/style/noNonNullAssertion: give has one entry an obstacle; clear is added to before its last is read.
import { phrase } from "../../findings/index.ts";
import { contactsOf, type Mobility, mobilityOf } from "../joint/index.ts";
import {
  type Checker,
  checker,
  type FitBar,
  interpolate,
  type Obstacle,
  type Pose,
  type Scene,
  SEAT,
  type Solid,
  solidOf,
  standing,
} from "../scene/index.ts";
import { advance, findWay, leastSpring, type Motion, SEARCH_TOUCH, TOUCH } from "../way/index.ts";
import { jointOf, slidesOf } from "./held.ts";
import type { Joint, Judged, Past } from "./judged.ts";
import { type Case, type Foul, type Setting, tried, wentIn } from "./went.ts";
import { whyFouled, whyMissing, whyNot, whyUnchecked } from "./why.ts";

/**
 * Judges one bar against the bars tacked so far and the parts that stand (plates, body, driver, floor).
 *
 * Its joints first (`mobilityOf`, then the straight slides followed against the hosts alone), then the way out
 * (`findWay`), which read backwards is the way in. Where the joints or the way do not let it go, the least springing
 * of its hosts is sought (`leastSpring`). A way is returned only after an independent sweep (`sweep`) found no more
 * overlap than TOUCH beyond the springing stated; one that touches by more is nudged and swept again, and what still
 * touches by no more than MERE_TOUCH is "touches", with the amount. "no" is the result of a search unless `proved` and nothing gives.
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
    past: pastOf(scene.obstacles),
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
    ? {
        ...judged,
        goesIn: "unknown",
        stopped: true,
        proved: false,
        why: [phrase("fit-stopped")],
      }
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
  let leave: Motion | undefined;
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
  if (!("met" in went)) return went;
  const { met } = went;
  const why = whyUnchecked(met.id, met.by);
  return { ...base, goesIn: "no", joint, proved: false, blockedBy: [], met, why };
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
        if (reached > 0) clear.push(interpolate(from, to, 0.9 * reached));
        break;
      }
    }
    return [1, 0.7, 0.4].map((part) => clear.slice(0, Math.ceil(clear.length * part)));
  });
}

/** What there is to go past, by kinds. */
const pastOf = (obstacles: readonly Obstacle[]): readonly Past[] =>
  PAST.filter((kind) => obstacles.some((o) => KIND[o.kind] === kind));

const PAST: readonly Past[] = ["bars", "plates", "body", "driver", "floor"];
const KIND: Readonly<Record<Obstacle["kind"], Past>> = {
  bar: "bars",
  plate: "plates",
  line: "body",
  panel: "body",
  driver: "driver",
  floor: "floor",
};

const seatedOn = (solid: Solid, o: Obstacle): boolean =>
  checker(solid, { obstacles: [o] })(SEAT, { cap: 1 }).least < TOUCH;

function foulsOf(solid: Solid, scene: Scene): readonly Foul[] {
  const check = checker(solid, scene);
  if (check(SEAT, { cap: 1 }).least >= -TOUCH) return [];
  return scene.obstacles.flatMap((o, index): Foul[] => {
    const d = checker(solid, { obstacles: [o] })(SEAT, { cap: 1 }).least;
    return d < -TOUCH ? [{ id: o.id, by: -d, index }] : [];
  });
}
