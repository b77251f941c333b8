import { describe, expect, it } from "vitest";
import { dot, type Vec } from "../../core/space/index.ts";
import { axisWords } from "./axis-words.ts";
import { axesOf } from "./camera.ts";
import type { At } from "./thin.ts";

const ARM = 22;
const HALF = 63;
const WORDS = [
  { way: [1, 0, 0] as Vec, width: 34, height: 14 },
  { way: [0, 1, 0] as Vec, width: 25, height: 14 },
  { way: [0, 0, 1] as Vec, width: 18, height: 14 },
];

describe("the words at the axes", () => {
  it("from every direction none lies on another or on an arm, all are in their square, and no long arm is without", () => {
    const bad: string[] = [];
    for (let az = -180; az < 180; az += 5) {
      for (let el = -90; el <= 90; el += 5) bad.push(...wrongFrom(az, el));
    }
    expect(bad).toEqual([]);
  });
});

function wrongFrom(az: number, el: number): string[] {
  const { right, up } = axesOf({ az, el });
  const arms = WORDS.map(({ way, ...size }) => ({
    ...size,
    tip: { x: ARM * dot(way, right), y: -ARM * dot(way, up) },
  }));
  const at = axisWords(arms, HALF);
  const bad: string[] = [];
  const boxes = at.flatMap((p, i) => {
    const { width = 0, height = 0 } = arms[i] ?? {};
    return p
      ? [{ left: p.x - width / 2, right: p.x + width / 2, top: p.y - height / 2, low: p.y + height / 2 }]
      : [];
  });
  boxes.forEach((a, k) => {
    if (Math.max(-a.left, a.right, -a.top, a.low) > HALF) bad.push("out");
    for (const b of boxes.slice(k + 1)) {
      if (a.left < b.right && b.left < a.right && a.top < b.low && b.top < a.low) bad.push("on another");
    }
    if (arms.some(({ tip }) => runsInto(tip, a))) bad.push("on an arm");
  });
  arms.forEach(({ tip }, i) => {
    if (Math.hypot(tip.x, tip.y) > 10 && !at[i]) bad.push(`word ${i} missing`);
  });
  if (boxes.length < 2) bad.push("too few");
  return bad.map((what) => `${what} from az ${az}, el ${el}`);
}

function runsInto(tip: At, box: { left: number; right: number; top: number; low: number }): boolean {
  return Array.from({ length: 40 }, (_, k) => k / 39).some((t) => {
    const [x, y] = [t * tip.x, t * tip.y];
    return x > box.left && x < box.right && y > box.top && y < box.low;
  });
}
