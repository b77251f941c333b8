import { inLine } from "./text.ts";

/** A direction of the car in words: "up and rearward", "to the left". Parts under a third of it are not named. */
export function directionWords([x, y, z]: readonly [number, number, number]): string {
  const size = Math.hypot(x, y, z) || 1;
  const ways = [
    { by: z, names: ["up", "down"] },
    { by: x, names: ["forward", "rearward"] },
    { by: y, names: ["to the left", "to the right"] },
  ]
    .filter(({ by }) => Math.abs(by) / size > 0.34)
    .sort((a, b) => Math.abs(b.by) - Math.abs(a.by))
    .flatMap(({ by, names }) => names[by > 0 ? 0 : 1] ?? []);
  return inLine(ways);
}
