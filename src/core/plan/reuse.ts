import {
  judgeMade,
  lengthLeft,
  type MadeBar,
  type MadeVerdict,
  madeBar,
  shapeMade,
  turnedRound,
} from "../made/index.ts";
import { alike, shapeOf } from "../trestles/index.ts";
import { limitsOf, wantOf } from "./change.ts";
import { madeOf } from "./made.ts";
import type { BarPlan, Plan } from "./plan.ts";

/** What a made bar could become, or a piece of tube that it could be made again from. */
export interface Reuse {
  readonly of:
    | { readonly kind: "bar"; readonly id: string }
    /** `id`: the tube's and the piece's number in its pile; `left`: what remains of it (mm), the kerf not counted. */
    | { readonly kind: "piece"; readonly id: string; readonly left: number };
  /** Its end A would be that bar's end B. */
  readonly reversed: boolean;
  /** What is to be done with it; the ends are those of the bar that it becomes. */
  readonly verdict: MadeVerdict;
}

const READY = ["good", "saw off", "ease", "notch again"];

/**
 * Which bars of the job, of those only laid out, a made bar could become, either way round (mirrored never); then which
 * pieces on the rack it could be sawn from again. Bars by what is to be done with them, the least waste first; pieces
 * the shortest first. A bar that nobody has sawn could become nothing.
 */
export function reuseOf(plan: Plan, id: string): readonly Reuse[] {
  const made = madeOf(plan, id);
  return [...(made ? barsFrom(plan, made) : []), ...piecesFor(plan, id)];
}

function barsFrom(plan: Plan, made: MadeBar): readonly Reuse[] {
  // A straight bar without a notch is the same either way round.
  const hasWays = made.shape.angles.length > 0 || made.rims.A !== undefined || made.rims.B !== undefined;
  const ways = hasWays ? [made, turnedRound(made)] : [made];
  const left = lengthLeft(made);
  const found = plan.bars
    .filter((b) => b.id !== made.id && (plan.job.bars[b.id]?.progress ?? "laid out") === "laid out")
    .flatMap((b) => {
      const matches = ways.flatMap((way, i): Reuse[] => {
        if (!isNear(way, b, left, plan)) return [];
        const verdict = judgeMade(way, wantOf(plan, b), limitsOf(plan.job));
        return READY.includes(verdict.verdict)
          ? [{ of: { kind: "bar", id: b.id }, reversed: i > 0, verdict }]
          : [];
      });
      // Where no notch of it is kept, it does not matter on a straight bar which way round it goes.
      const isPlain = made.shape.angles.length === 0 && matches.every((m) => m.verdict.again?.length === 2);
      return isPlain ? matches.slice(0, 1) : matches;
    });
  const rank = ({ verdict }: Reuse): number => READY.indexOf(verdict.verdict);
  return found.sort((a, b) => rank(a) - rank(b) || waste(a) - waste(b));
}

/** Whether it is worth laying: of that tube and shape, and not shorter than gaps could make up for. */
function isNear(made: MadeBar, { bar, bend }: BarPlan, left: number, plan: Plan): boolean {
  if (made.step === "sawn" && made.shape.angles.length === 0 && !made.rims.A && !made.rims.B) return true;
  return left > bend.blank - SHORT - 2 * plan.job.shop.gap && alike(made.shape, shapeOf(bar.centreline));
}

/** Tube that a bar may lack in its place: where it is put aside of it, a straight between its ends is shorter (mm). */
const SHORT = 20;

const waste = ({ verdict: { ends } }: Reuse): number => Math.abs((ends?.A ?? 0) + (ends?.B ?? 0));

function piecesFor(plan: Plan, id: string): readonly Reuse[] {
  const planned = plan.byId.get(id);
  if (!planned) return [];
  const want = wantOf(plan, planned);
  const counted = new Map<string, number>();
  const found = plan.job.rack.flatMap(({ tube, pieces }) =>
    pieces.flatMap((length): Reuse[] => {
      const n = (counted.get(tube) ?? 0) + 1;
      counted.set(tube, n);
      const kind = plan.job.tubes[tube];
      if (!kind) return [];
      const piece = madeBar(
        id,
        "sawn",
        { sawn: { tube: kind, length } },
        shapeMade(length, undefined, undefined),
      );
      if (!piece) return [];
      const verdict = judgeMade(piece, want, limitsOf(plan.job));
      const left = length - want.net - want.allowance.A - want.allowance.B;
      return READY.includes(verdict.verdict)
        ? [{ of: { kind: "piece", id: `${tube}#${n}`, left: Math.max(0, left) }, reversed: false, verdict }]
        : [];
    }),
  );
  return found.sort((a, b) => waste(a) - waste(b));
}
