import type { At, Box } from "./thin.ts";
import { overlap } from "./thin.ts";

/** An axis of the marker as it is seen: its tip from where the axes meet (CSS pixels, right and down), and its word's size. */
export interface Arm {
  readonly tip: At;
  readonly width: number;
  readonly height: number;
}

/** A word is this far beyond its arm's tip, or beside it, and steps on where it would lie on another word. */
const OFF = 4;
const STEP = 5;
const STEPS = 8;
/** Where an arm shorter than this points nobody can see (CSS pixels). */
const SHORT = 9;

/**
 * Where the middles of the axes' words lie: beyond their arms' tips, on no other word and on no arm, within `half` of
 * where the axes meet. Undefined for an arm that points at the viewer or away, and for a word without room.
 */
export function axisWords(arms: readonly Arm[], half: number): readonly (At | undefined)[] {
  const out: (At | undefined)[] = arms.map(() => undefined);
  const taken: Box[] = [];
  const byLength = arms
    .map((arm, i) => ({ ...arm, i, length: Math.hypot(arm.tip.x, arm.tip.y) }))
    .toSorted((a, b) => b.length - a.length);
  for (const { i, tip, width, height, length } of byLength) {
    if (length < SHORT) continue;
    const way = { x: tip.x / length, y: tip.y / length };
    const beyond = (to: At, from: At): At[] => {
      // How far the word reaches back that way.
      const reach = Math.min(
        width / 2 / Math.max(Math.abs(to.x), 1e-6),
        height / 2 / Math.max(Math.abs(to.y), 1e-6),
      );
      return Array.from({ length: STEPS }, (_, k) => {
        const far = OFF + reach + STEP * k;
        return { x: from.x + far * to.x, y: from.y + far * to.y };
      });
    };
    const places = [
      ...beyond(way, tip),
      ...beyond({ x: -way.y, y: way.x }, tip),
      ...beyond({ x: way.y, y: -way.x }, tip),
    ];
    const at = places.find((p) => {
      const box = boxAt(p, width, height);
      const isInside = Math.abs(p.x) + width / 2 <= half && Math.abs(p.y) + height / 2 <= half;
      return (
        isInside && !taken.some((other) => overlap(box, other)) && arms.every((arm) => !isOn(arm.tip, box))
      );
    });
    if (!at) continue;
    out[i] = at;
    taken.push(boxAt(at, width, height));
  }
  return out;
}

const boxAt = ({ x, y }: At, width: number, height: number): Box => ({
  x: x - width / 2,
  y: y - height / 2,
  width,
  height,
});

/** Whether an arm, from where the axes meet to its tip, comes to a box. */
const isOn = (tip: At, box: Box): boolean =>
  [0.2, 0.4, 0.6, 0.8, 1].some((t) => {
    const [x, y] = [t * tip.x, t * tip.y];
    return x > box.x - 1 && x < box.x + box.width + 1 && y > box.y - 1 && y < box.y + box.height + 1;
  });
