import type { Vec } from "../../space/index.ts";

export const unitOf = (v: Vec): Vec => {
  const l = Math.hypot(v[0], v[1], v[2]);
  return [v[0] / l, v[1] / l, v[2] / l];
};

/** The 26 directions of a cube's faces, edges and corners (length 1). */
export const WAYS: readonly Vec[] = [0, 1, 2].flatMap((rank) =>
  [-1, 0, 1].flatMap((x) =>
    [-1, 0, 1].flatMap((y) =>
      [-1, 0, 1].flatMap((z): Vec[] => {
        const n = Math.abs(x) + Math.abs(y) + Math.abs(z);
        return n === rank + 1 ? [unitOf([x, y, z])] : [];
      }),
    ),
  ),
);
