import type { JobDocument } from "../model/document/index.ts";

/**
 * Two posts that come together toward the top, and two bars between them, one close above the other: each slides in
 * from below, so the upper one must be in before the lower one. The job hangs them the wrong way round.
 */
export const trap = (): JobDocument => ({
  format: "tubewright job",
  version: 2,
  name: "Trap",
  tubes: { t: { od: 40, wall: 2 } },
  bars: {
    left: {
      label: "Post, left",
      tube: "t",
      path: [
        [0, 400, 0],
        [0, 200, 900],
      ],
    },
    right: { label: "Post, right", mirrorOf: "left" },
    low: {
      label: "Lower bar",
      tube: "t",
      path: [
        { on: "left", z: 540 },
        { on: "right", z: 540 },
      ],
    },
    high: {
      label: "Upper bar",
      tube: "t",
      path: [
        { on: "left", z: 586 },
        { on: "right", z: 586 },
      ],
    },
  },
  order: ["left", "right", "low", "high"],
});
