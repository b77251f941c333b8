import type { CopeResult } from "../cope/index.ts";
import type { End, Needs } from "../job/types.ts";
import type { ResolvedBar } from "../layout/types.ts";
import { neg, type Vec } from "../space/index.ts";
import { advance, SEARCH_TOUCH, TOUCH, travel } from "./advance.ts";
import { chainOf } from "./chain.ts";
import { checker } from "./clearance.ts";
import { contactsOf, inWords, type Lip, type Mobility, mobilityOf } from "./mobility.ts";
import { type Pose, SEAT } from "./pose.ts";
import type { Obstacle, Scene } from "./scene.ts";
import { type Solid, solidOf } from "./solid.ts";
import { type Leave, leastSpring } from "./spring.ts";
import { sweep } from "./sweep.ts";
import { findWay } from "./way.ts";

/** A bar with what the fit needs to know of it. */
export interface FitBar {
  readonly bar: ResolvedBar;
  readonly copes: Readonly<Record<End, CopeResult>>;
  readonly hosts: Readonly<Record<End, readonly ResolvedBar[]>>;
  readonly needs?: Needs;
}

export type Joint = "slides" | "tips" | "locked" | "open";

/** Whether one bar goes in past what stands. */
export interface Judged {
  readonly bar: string;
  /** Bars tacked before it. */
  readonly after: readonly string[];
  readonly goesIn: "free" | "spring" | "no";
  readonly joint: Joint;
  /** Whether "locked" is proved (no first-order motion) or only a search result. */
  readonly proved: boolean;
  /** From outside to the seat; empty where none was found. */
  readonly way: readonly Pose[];
  /** Least distance on the way to what it does not touch at its seat (mm), and to what. */
  readonly clearance?: number;
  readonly nearest?: string;
  /** How far its hosts must be sprung, or its joints stand open, a side (mm); 0 for a free one. */
  readonly spring: number;
  /** Direction in which it slides out (length 1), if it does. */
  readonly slides?: Vec;
  readonly lips: readonly Lip[];
  /** What stood in the way of those tried, where it does not go in. */
  readonly blockedBy: readonly string[];
  /** What it overlaps at its own seat, by how much (mm). */
  readonly fouls: readonly { readonly id: string; readonly by: number }[];
  readonly why: string;
}

export interface Effort {
  readonly seed: number;
  /** Nodes that a search may make. */
  readonly nodes: number;
  /** More springing than this is none (mm a side). */
  readonly most: number;
  readonly stop: () => boolean;
}

const list = (ids: readonly string[]): string =>
  ids.length < 2 ? ids.join("") : `${ids.slice(0, -1).join(", ")} and ${ids[ids.length - 1]}`;

const mmText = (v: number): string => `${v < 0.995 ? v.toFixed(2) : v.toFixed(1)} mm`;

/**
 * Judges one bar against the bars tacked so far and the parts that stand (plates, body, driver, floor).
 *
 * Its joints first (`mobilityOf`, then the straight slide followed against the hosts alone), then the way out
 * (`findWay`), which read backwards is the way in. Where the joints or the way do not let it go, the least springing
 * of its hosts is sought (`leastSpring`). A way is returned only after an independent sweep (`sweep`) found no more
 * overlap than TOUCH beyond the springing stated. "no" is the result of a search unless `proved` and nothing gives.
 */
export function judge(
  own: FitBar,
  tacked: readonly FitBar[],
  parts: readonly Obstacle[],
  effort: Effort,
): Judged {
  const { bar, copes, hosts } = own;
  const after = tacked.map((t) => t.bar.id);
  const missing = [...hosts.A, ...hosts.B].filter((h) => !after.includes(h.id)).map((h) => h.id);
  const mobility = mobilityOf(bar, contactsOf(bar, copes, hosts));
  const solid = solidOf(bar, copes);
  const hostIds = new Set([...hosts.A, ...hosts.B].map((h) => h.id));
  const scene: Scene = { obstacles: [...tacked.map((t) => standing(t.bar)), ...parts] };
  const slides = mobility.slides.filter((d) => runsFree(solid, scene, hostIds, d));
  const base = {
    bar: bar.id,
    after,
    way: [],
    spring: 0,
    lips: mobility.lips,
    proved: mobility.locked,
    blockedBy: [],
    fouls: [],
    ...(slides[0] ? { slides: slides[0] } : {}),
  };
  if (missing.length > 0) {
    const joint = jointOf(mobility, slides, undefined, () =>
      tipsAlone(solid, scene, hostIds, own, mobility, effort),
    );
    const why = `lands on ${list([...new Set(missing)])}, which is not in yet`;
    return { ...base, goesIn: "no", joint, proved: true, blockedBy: missing, why };
  }
  const fouls = foulsOf(solid, scene);
  const worst = Math.max(0, ...fouls.map((f) => f.by));
  if (worst > effort.most) {
    const joint = jointOf(mobility, slides, undefined, () =>
      tipsAlone(solid, scene, hostIds, own, mobility, effort),
    );
    const why = `at its own seat it runs ${mmText(worst)} into ${fouls.find((f) => f.by === worst)!.id}`;
    return { ...base, goesIn: "no", joint, proved: true, fouls, blockedBy: fouls.map((f) => f.id), why };
  }
  const give = new Float64Array(scene.obstacles.length);
  for (const f of fouls) give[f.index] = f.by + 0.004;
  const check = checker(solid, scene);
  const task = { solid, scene, check, give, seed: effort.seed, nodes: effort.nodes, stop: effort.stop };
  let found = findWay(task, slides, []);
  let leave: Leave | undefined;
  if (!found.ok) {
    leave = leastSpring({
      solid,
      scene,
      check,
      ends: [bar.centreline.start, bar.centreline.finish],
      hosts: scene.obstacles.map((o) => hostIds.has(o.id)),
      allowed: give,
      tips: mobility.tips,
      most: effort.most,
      stop: effort.stop,
    });
    if (leave) {
      const sprung = give.map((g, k) =>
        hostIds.has(scene.obstacles[k]!.id) ? g + leave!.spring + 0.002 : g,
      );
      const again = findWay({ ...task, give: sprung }, [], [leave.poses]);
      found = again.ok ? again : { ...again, stoppedBy: [...found.stoppedBy, ...again.stoppedBy] };
    }
  }
  const joint = jointOf(mobility, slides, leave ?? undefined, () =>
    tipsAlone(solid, scene, hostIds, own, mobility, effort),
  );
  const spring = Math.max(leave?.spring ?? 0, worst);
  if (!found.ok) {
    const stands = new Set(
      scene.obstacles.filter((o) => o.kind === "plate" && seatedOn(solid, o)).map((o) => o.id),
    );
    const blockedBy = [...new Set(found.stoppedBy)]
      .filter((id) => !hostIds.has(id) && !stands.has(id))
      .slice(0, 4);
    const why = whyNot(mobility, joint, found.loose, blockedBy, effort);
    return {
      ...base,
      goesIn: "no",
      joint,
      fouls,
      blockedBy,
      proved: mobility.locked && !leave && !found.loose,
      why,
    };
  }
  const swept = sweep(
    bar,
    copes,
    found.poses,
    tacked.map((t) => t.bar),
    parts,
  );
  if (swept.overlap > spring + TOUCH) {
    const why = `a way was found, but its check met ${swept.deepest} by ${mmText(swept.overlap)}; taken as none`;
    return {
      ...base,
      goesIn: "no",
      joint,
      fouls,
      proved: false,
      blockedBy: swept.deepest ? [swept.deepest] : [],
      why,
    };
  }
  const springs = spring > SEARCH_TOUCH;
  return {
    ...base,
    goesIn: springs ? "spring" : "free",
    joint,
    fouls,
    way: found.poses,
    spring: springs ? spring : 0,
    ...(swept.nearest === undefined ? {} : { clearance: swept.clearance, nearest: swept.nearest }),
    why: whyGoes(mobility, slides[0], leave, fouls, found.poses, solid.reach),
  };
}

const seatedOn = (solid: Solid, o: Obstacle): boolean =>
  checker(solid, { obstacles: [o] })(SEAT, { cap: 1 }).least < TOUCH;

/** A tacked bar as it stands in the way. Its ends are taken on to where its centreline lands, inside its hosts. */
export const standing = (bar: ResolvedBar): Obstacle => ({
  id: bar.id,
  kind: "bar",
  chain: chainOf(bar.centreline, 0, bar.centreline.length, bar.tube.od / 2),
});

/** Whether a slide that the contacts allow really runs free of the hosts, far enough to be out of any lip. */
function runsFree(solid: Solid, scene: Scene, hosts: ReadonlySet<string>, d: Vec): boolean {
  const only = { obstacles: scene.obstacles.filter((o) => hosts.has(o.id)) };
  const widest = Math.max(0, ...only.obstacles.map((o) => ("chain" in o ? o.chain.radius : 0)));
  const far = 2 * (solid.radius + widest);
  const to: Pose = { at: [d[0] * far, d[1] * far, d[2] * far], turn: SEAT.turn };
  const stride = { keep: -SEARCH_TOUCH, step: 0.2, asked: { cap: 50 } };
  return advance(checker(solid, only), solid.reach, SEAT, to, stride).reached === 1;
}

/** How its joints hold a bar, whatever else stands; `alone` asks for a small move out past its hosts alone. */
function jointOf(
  mobility: Mobility,
  slides: readonly Vec[],
  leave: Leave | undefined,
  alone: () => boolean,
): Joint {
  if (mobility.open.length > 0) return "open";
  if (slides.length > 0) return "slides";
  if (mobility.locked) return "locked";
  return (leave && leave.spring <= SEARCH_TOUCH) || alone() ? "tips" : "locked";
}

function tipsAlone(
  solid: Solid,
  scene: Scene,
  hosts: ReadonlySet<string>,
  own: FitBar,
  mobility: Mobility,
  effort: Effort,
): boolean {
  const obstacles = scene.obstacles.filter((o) => hosts.has(o.id));
  const alone = { obstacles };
  const leave = leastSpring({
    solid,
    scene: alone,
    check: checker(solid, alone),
    ends: [own.bar.centreline.start, own.bar.centreline.finish],
    hosts: obstacles.map(() => true),
    allowed: new Float64Array(obstacles.length),
    tips: mobility.tips,
    most: SEARCH_TOUCH,
    stop: effort.stop,
  });
  return leave !== undefined;
}

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

function whyNot(
  mobility: Mobility,
  joint: Joint,
  loose: boolean,
  blockedBy: readonly string[],
  effort: Effort,
): string {
  const by = blockedBy.length > 0 ? `; ${list(blockedBy)} stood in the way` : "";
  const not = "a search result, not a proof";
  if (joint === "locked" && !loose) {
    const lips = mobility.lips.map((l) => `end ${l.end} ${l.from}° to ${l.to}° on ${l.host}`).slice(0, 4);
    const held = lips.length > 0 ? ` (${list(lips)})` : "";
    const proof = mobility.locked
      ? "its joints hold it, by proof, for hosts that do not give"
      : `its joints hold it: ${not}`;
    return `${proof}${held}; up to ${effort.most} mm of springing a side did not free it: ${not}`;
  }
  if (!loose) return `no straight way nor small move left its joints${by}: ${not}`;
  return `out of its joints no way led outside in a search of up to ${effort.nodes} poses${by}: ${not}`;
}

function whyGoes(
  mobility: Mobility,
  slide: Vec | undefined,
  leave: Leave | undefined,
  fouls: readonly Foul[],
  poses: readonly Pose[],
  reach: number,
): string {
  const parts: string[] = [];
  if (leave && leave.spring > 0) {
    const proof = mobility.locked ? "its joints hold it" : "its joints give it no free way that was found";
    parts.push(
      `${proof}; ${leave.how}, it goes in with ${mmText(leave.spring)} of springing a side, or that much gap at each end (an upper bound)`,
    );
  } else if (leave) parts.push(`not straight: ${leave.how}, it goes in freely`);
  else if (slide && poses.length === 2) {
    const last = poses[0]!.at;
    parts.push(`goes in straight, ${inWords(neg(last))}`);
  } else if (poses.length > 1) {
    const last = poses[poses.length - 2]!.at;
    parts.push(`at the last goes in ${inWords(neg(last))}`);
  }
  if (poses.length > 2) {
    const total = poses.slice(1).reduce((sum, p, i) => sum + travel(poses[i]!, p, reach), 0);
    parts.push(`${poses.length - 1} moves, ${Math.round(total / 10) / 100} m in all`);
  }
  for (const f of fouls)
    parts.push(`at its seat it touches ${f.id} by ${mmText(f.by)}: dress that off, or cope to both`);
  return parts.join("; ");
}
