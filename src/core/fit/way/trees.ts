// biome-ignore-all lint/style/noNonNullAssertion: a bar has one segment at least; a tree has its root, and an index drawn at random is below the length of its list.
import { normal } from "../../numeric/index.ts";
import { add, mapVec, ORIGIN, scale, sub, type Vec } from "../../space/index.ts";
import {
  type Checker,
  compose,
  interpolate,
  type Pose,
  placed,
  quatOf,
  type Solid,
  unitQuat,
} from "../scene/index.ts";
import { advance, type Stride, travel } from "./advance.ts";
import { WAYS } from "./directions.ts";
import { farIn, type Outside } from "./outside.ts";

interface Node {
  readonly pose: Pose;
  readonly from?: Node;
}

export interface TreeTask {
  readonly solid: Solid;
  readonly check: Checker;
  readonly free: Stride;
  /** Loose poses to set out from. */
  readonly roots: readonly Pose[];
  readonly outside: Outside;
  readonly random: () => number;
  readonly nodes: number;
  readonly stop: () => boolean;
}

/** A new node is worth keeping when it got this far (mm of the fastest point). */
const WORTH = 4;
const LONGEST = 500;

/**
 * A path of poses from outside to one of the roots, by two trees that grow toward each other (RRT-Connect: J. J.
 * Kuffner and S. M. LaValle, IEEE International Conference on Robotics and Automation 2000, 995-1001), over shift and
 * turn. The distance of two poses is how far the bar's fastest point may travel between them. Half of the samples lie
 * about the roots, where the narrow places are; each new node of the inner tree also tries two straight ways out.
 */
export function connectTrees(task: TreeTask): { readonly poses: readonly Pose[] } | undefined {
  const { solid, outside } = task;
  const inner: Node[] = task.roots.map((pose) => ({ pose }));
  const outer: Node[] = [];
  for (const root of task.roots.slice(0, 2)) {
    for (const d of WAYS) {
      const pose = { at: add(root.at, scale(d, farIn(solid, outside, root, d))), turn: root.turn };
      if (task.check(pose, task.free.asked).least > task.free.keep) outer.push({ pose });
    }
  }
  if (outer.length === 0) return undefined;
  let grow = inner;
  let other = outer;
  while (inner.length + outer.length < task.nodes) {
    if (task.stop()) return undefined;
    const made = extend(task, grow, sample(task));
    if (made) {
      const meets =
        grow === inner ? (straightOut(task, made) ?? reach(task, other, made)) : reach(task, other, made);
      if (meets) {
        const [a, b] = grow === inner ? [made, meets] : [meets, made];
        const inward = chain(a);
        const outward = chain(b).reverse();
        return { poses: [...outward, ...inward] };
      }
    }
    [grow, other] = [other, grow];
  }
  return undefined;
}

const chain = (node: Node): Pose[] => {
  const out: Pose[] = [];
  for (let n: Node | undefined = node; n; n = n.from) out.push(n.pose);
  return out;
};

/** A pose to grow toward: anywhere in the room, or near the roots. */
function sample(task: TreeTask): Pose {
  const { random, solid, outside } = task;
  const root = task.roots[Math.floor(random() * task.roots.length)]!;
  const middle = placed(root, solid.about, middleOf(solid));
  const kind = random();
  const spread = kind < 0.25 ? 0.15 : kind < 0.6 ? 0.5 : 3;
  const shift: Vec =
    kind < 0.5
      ? mapVec(ORIGIN, () => normal(random) * (kind < 0.25 ? 80 : 300))
      : sub(
          mapVec(outside.room.lo, (lo, k) => lo + random() * (outside.room.hi[k] - lo)),
          middle,
        );
  const turn =
    spread < 3
      ? compose(
          quatOf([normal(random) * spread, normal(random) * spread, normal(random) * spread]),
          root.turn,
        )
      : unitQuat([normal(random), normal(random), normal(random), normal(random) + 1e-9]);
  // Turned about its middle, not about its landing, then shifted.
  const turned: Pose = { at: root.at, turn };
  const gone = sub(placed(turned, solid.about, middleOf(solid)), middle);
  return { at: add(sub(root.at, gone), shift), turn };
}

function middleOf(solid: Solid): Vec {
  const { segments } = solid.whole;
  const n = segments.length;
  return [
    (segments[0]! + segments[n - 3]!) / 2,
    (segments[1]! + segments[n - 2]!) / 2,
    (segments[2]! + segments[n - 1]!) / 2,
  ];
}

function nearest(tree: readonly Node[], pose: Pose, reachOf: number): Node {
  let best = tree[0]!;
  let least = Infinity;
  for (const node of tree) {
    const d = travel(node.pose, pose, reachOf);
    if (d < least) {
      least = d;
      best = node;
    }
  }
  return best;
}

/** Grows a tree from its nearest node toward a pose as far as it is clear; the new node, if it got anywhere. */
function extend(task: TreeTask, tree: Node[], to: Pose): Node | undefined {
  const { solid } = task;
  const from = nearest(tree, to, solid.reach);
  const total = travel(from.pose, to, solid.reach);
  const target = total > LONGEST ? interpolate(from.pose, to, LONGEST / total) : to;
  const got = advance(task.check, solid.reach, from.pose, target, task.free);
  // A little short of what stopped it, so that there is room to turn.
  const t = got.reached === 1 ? 1 : got.reached * 0.9;
  if (t * Math.min(total, LONGEST) < WORTH) return undefined;
  const node: Node = { pose: interpolate(from.pose, target, t), from };
  tree.push(node);
  return node;
}

/** Grows a tree toward a node again and again until it is reached (a node of that tree at the same pose) or stuck. */
function reach(task: TreeTask, tree: Node[], node: Node): Node | undefined {
  for (let n = 0; n < 30; n++) {
    const made = extend(task, tree, node.pose);
    if (!made) return undefined;
    if (travel(made.pose, node.pose, task.solid.reach) < 1e-9) return made.from;
  }
  return undefined;
}

function straightOut(task: TreeTask, node: Node): Node | undefined {
  const { solid, outside, random } = task;
  for (let n = 0; n < 2; n++) {
    const d = WAYS[Math.floor(random() * WAYS.length)]!;
    const pose = {
      at: add(node.pose.at, scale(d, farIn(solid, outside, node.pose, d))),
      turn: node.pose.turn,
    };
    if (advance(task.check, solid.reach, node.pose, pose, task.free).reached === 1) return { pose };
  }
  return undefined;
}
