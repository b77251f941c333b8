import type { Points, Turn } from "../core/bend/index.ts";
import type { Writer } from "../core/findings/index.ts";
import { deg } from "../core/numeric/index.ts";

/** Where a bend already made points: "bend 1 points 35.0° above level, on your left". */
export function sayPoints(bend: number, { above, side }: Points, { angle }: Pick<Writer, "angle">): string {
  if (!side) return `bend ${bend} points straight ${above > 0 ? "up" : "down"}`;
  if (above === 0) return `bend ${bend} is level, on your ${side}`;
  const way = above > 0 ? "above" : "below";
  return `bend ${bend} points ${angle(deg(Math.abs(above)))} ${way} level, on your ${side}`;
}

/** The turn as one sentence for the operator, who looks along the tube toward the die; never a sign. */
export function sayTurn(turn: Turn, writer: Writer): string {
  const now = sayPoints(turn.last, turn.points, writer);
  if (turn.code === "no-turn") return `do not turn the tube: ${now}`;
  if (!turn.way) return `turn the tube half round, either way: now ${now}`;
  const round = writer.length(turn.roundTube);
  return `turn the tube ${writer.angle(deg(turn.amount))} ${turn.way} (${round} round the tube): now ${now}`;
}
