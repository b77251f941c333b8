import type { Vec } from "../../space/index.ts";
import type { Mobility } from "../joint/index.ts";
import { checker, type FitBar, type Pose, type Scene, SEAT, type Solid, standing } from "../scene/index.ts";
import { advance, leastSpring, SEARCH_TOUCH } from "../way/index.ts";
import type { Joint } from "./judged.ts";

/** A bar's own hosts as a scene. */
const hostScene = ({ hosts }: FitBar): Scene => ({
  obstacles: [...new Set([...hosts.A, ...hosts.B])].map(standing),
});

/** The slides that the contacts allow and that really run free of the hosts, far enough to be out of any lip. */
export function slidesOf(own: FitBar, solid: Solid, mobility: Mobility): readonly Vec[] {
  const scene = hostScene(own);
  const check = checker(solid, scene);
  const widest = Math.max(0, ...scene.obstacles.map((o) => ("capsules" in o ? o.capsules.radius : 0)));
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
