import { expect, test } from "vitest";
import { fittingFor, jobOf } from "../../../../tests/support/fit.ts";
import { checker, type Pose, SEAT, solidOf, standing } from "../scene/index.ts";
import { nudged, sweep, TOUCH } from "./index.ts";

/** An upright bar carried past an upright post, 40 from middle to middle less `by`, from x −200 to 200. */
function past(by: number, second = 0) {
  const fitting = fittingFor(
    jobOf({
      post: [
        [0, 0, 100],
        [0, 0, 500],
      ],
      other: [
        [0, 80 - by + second, 100],
        [0, 80 - by + second, 500],
      ],
      bar: [
        [200, 40 - by, 150],
        [200, 40 - by, 450],
      ],
    }),
  );
  const [post, other, bar] = fitting.bars;
  const solid = solidOf(bar!.bar, bar!.copes);
  const tacked = [post!, other!].map((b) => b.bar);
  const scene = { obstacles: tacked.map(standing) };
  const start: Pose = { at: [-400, 0, 0], turn: SEAT.turn };
  const task = {
    solid,
    scene,
    check: checker(solid, scene),
    ends: [bar!.bar.centreline.start, bar!.bar.centreline.finish] as const,
    allowed: new Float64Array(2),
    tips: [],
    most: 0,
    stop: () => false,
  };
  const follow = (way: readonly Pose[]) =>
    sweep(bar!.bar, bar!.copes, way, tacked, [], { enough: TOUCH, all: true });
  return { task, way: [start, SEAT], follow };
}

test("a way that touches by hundredths is moved aside there, its ends kept", () => {
  for (const by of [0.02, 0.05, 0.1]) {
    const { task, way, follow } = past(by, 10);
    expect(follow(way).overlap).toBeCloseTo(by, 3);
    const { poses, swept } = nudged(task, way, follow, TOUCH);
    expect(swept.overlap).toBeLessThanOrEqual(TOUCH);
    expect(follow(poses)).toEqual(swept);
    expect([poses[0], poses[poses.length - 1]]).toEqual([way[0], way[1]]);
    expect(Math.max(...poses.map((p) => Math.abs(p.at[1])))).toBeLessThan(0.5);
  }
});

test("between two posts there is nowhere to go: the way stays as it was, and says by how much it touches", () => {
  // 0.03 into the one and 0.03 into the other: the middle is the best there is.
  const { task, way, follow } = past(0.03, -0.03);
  const { swept } = nudged(task, way, follow, TOUCH);
  expect(swept.overlap).toBeGreaterThan(0.025);
  expect(swept.overlap).toBeLessThan(0.035);
});
