import { Group, Matrix4, Vector3 } from "three";
import { describe, expect, it } from "vitest";
import type { Vec } from "../../core/space/index.ts";
import { posedAt, stageGroup } from "./staging.ts";

const QUARTER = Math.SQRT1_2;
const posed = {
  id: "bar",
  at: [10, 20, 30] as Vec,
  // a quarter turn, counter-clockwise seen from above
  turn: [0, 0, QUARTER, QUARTER] as const,
  about: [100, 0, 0] as Vec,
};

describe("a bar on its way", () => {
  it("is turned about its A landing, then shifted", () => {
    const [x, y, z] = posedAt(posed, [150, 0, 5]);
    expect(x).toBeCloseTo(110, 9);
    expect(y).toBeCloseTo(70, 9);
    expect(z).toBeCloseTo(35, 9);
  });

  it("its group puts every place of the mesh where the place is then", () => {
    const group = new Group();
    const [meshOrigin, viewOrigin]: Vec[] = [
      [120, 40, 7],
      [1000, 0, 0],
    ];
    stageGroup(group, "bar", meshOrigin!, viewOrigin!, { posed, hidden: new Set() });
    group.updateMatrix();
    const local = new Vector3(3, -4, 5).applyMatrix4(new Matrix4().copy(group.matrix));
    const [x, y, z] = posedAt(posed, [123, 36, 12]);
    expect(local.x).toBeCloseTo(x - 1000, 9);
    expect(local.y).toBeCloseTo(y, 9);
    expect(local.z).toBeCloseTo(z, 9);
  });

  it("others stay at their seats, those not in yet are not drawn, and all come back", () => {
    const group = new Group();
    const hidden = new Set(["other"]);
    stageGroup(group, "other", [1, 2, 3], [0, 0, 0], { posed, hidden });
    expect([group.position.toArray(), group.visible]).toEqual([[1, 2, 3], false]);
    stageGroup(group, "bar", [1, 2, 3], [0, 0, 0], { posed, hidden });
    stageGroup(group, "bar", [1, 2, 3], [0, 0, 0], null);
    expect([group.position.toArray(), group.quaternion.toArray(), group.visible]).toEqual([
      [1, 2, 3],
      [0, 0, 0, 1],
      true,
    ]);
  });
});
