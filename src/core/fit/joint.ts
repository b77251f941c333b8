import type { ResolvedBar } from "../layout/types.ts";
import type { Vec } from "../space/index.ts";
import { advance, SEARCH_TOUCH } from "./advance.ts";
import { chainOf } from "./chain.ts";
import { checker } from "./clearance.ts";
import type { FitBar, Joint } from "./judged.ts";
import type { Mobility } from "./mobility.ts";
import { type Pose, SEAT } from "./pose.ts";
import type { Obstacle, Scene } from "./scene.ts";
import type { Solid } from "./solid.ts";
import { leastSpring } from "./spring.ts";

/** A tacked bar as it stands in the way. Its ends are taken on to where its centreline lands, inside its hosts. */
export const standing = (bar: ResolvedBar): Obstacle => ({
  id: bar.id,
  kind: "bar",
  chain: chainOf(bar.centreline, 0, bar.centreline.length, bar.tube.od / 2),
});

/** A bar's own hosts as a scene. */
const hostScene = ({ hosts }: FitBar): Scene => ({
  obstacles: [...new Set([...hosts.A, ...hosts.B])].map(standing),
});

/** The slides that the contacts allow and that really run free of the hosts, far enough to be out of any lip. */
export function slidesOf(own: FitBar, solid: Solid, mobility: Mobility): readonly Vec[] {
  const scene = hostScene(own);
  const check = checker(solid, scene);
  const widest = Math.max(0, ...scene.obstacles.map((o) => ("chain" in o ? o.chain.radius : 0)));
  const far = 2 * (solid.radius + widest);
  return mobility.slides.filter((d) => {
    const to: Pose = { at: [d[0] * far, d[1] * far, d[2] * far], turn: SEAT.turn };
    const stride = { keep: -SEARCH_TOUCH, step: 0.2, asked: { cap: 50 } };
    return advance(check, solid.reach, SEAT, to, stride).reached === 1;
  });
}

/**
 * How its joints hold a bar, whatever else stands: by its contacts; where these leave it neither a slide nor a proof,
 * by a search for a motion out past its hosts alone, unless one was seen already (`freed`).
 */
export function jointOf(
  own: FitBar,
  solid: Solid,
  mobility: Mobility,
  slides: readonly Vec[],
  freed: boolean,
  stop: () => boolean,
): Joint {
  if (mobility.open.length > 0) return "open";
  if (slides.length > 0) return "slides";
  if (mobility.locked) return "locked";
  if (freed) return "tips";
  const scene = hostScene(own);
  const leave = leastSpring({
    solid,
    scene,
    check: checker(solid, scene),
    ends: [own.bar.centreline.start, own.bar.centreline.finish],
    hosts: scene.obstacles.map(() => true),
    allowed: new Float64Array(scene.obstacles.length),
    tips: mobility.tips,
    most: SEARCH_TOUCH,
    stop,
  });
  return leave ? "tips" : "locked";
}
