import {
  gapSide,
  type HoleCentre,
  joinedArcs,
  type Notch,
  type SawCut,
  type Step,
} from "../core/cope/index.ts";
import type { Writer } from "../core/findings/index.ts";
import { deg, wrapPi } from "../core/numeric/index.ts";
import type { BarPlan } from "../core/plan/index.ts";
import { arcRound } from "../core/tube/index.ts";
import { sayArcs } from "../words/index.ts";

/** Millimetres round the outside of the tube for an angle about it (radians). */
const roundTube = (b: BarPlan, angle: number): number => arcRound(b.bar.tube, angle);

/** The keys that stand beside an end's curve in the JSON: nothing for an end that is sawn flat. */
export function notchJson(b: BarPlan, notch: Notch | undefined, steps: boolean): object {
  if (!notch) return {};
  const { saw, hole } = notch;
  return {
    ...(saw && hole
      ? {
          saw: {
            ...cutJson(b, saw.cut, hole),
            exact: notch.exact,
            leaves: { most: saw.most, phi: saw.mostAt, standsOff: saw.standsOff },
            gap: { greatest: saw.gap, phi: saw.gapAt },
          },
        }
      : {}),
    useWrap: notch.useWrap,
    ...(notch.cuts.length > 0
      ? { cuts: notch.cuts.map((c) => ({ host: c.host, ...cutJson(b, c.cut, c.hole) })) }
      : {}),
    ...(steps && notch.steps ? { steps: stepsJson(notch.steps) } : {}),
  };
}

const cutJson = (b: BarPlan, cut: SawCut, hole: HoleCentre): object => ({
  diameter: 2 * cut.radius,
  offSquare: deg(cut.notch),
  sideOffset: cut.offset,
  clock: deg(wrapPi(cut.clock)),
  clockRound: roundTube(b, wrapPi(cut.clock)),
  centreBack: cut.centre,
  holeCentre: hole,
});

function stepsJson(plan: NonNullable<Notch["steps"]>): object {
  return {
    cuts: plan.steps.map((s) => ({
      offSquare: deg(s.notch),
      outboard: s.outboard,
      centreBack: s.centre,
      shows: s.shows,
    })),
    range: plan.range.map(deg),
    leave: plan.leave,
    fromShallower: plan.fromShallower,
    fromSteeper: plan.fromSteeper,
    ruleHolds: plan.ruleHolds,
  };
}

/** What a person at the notcher needs of one end, line by line; of one method, the wrap or the hole saw. */
export function notchText(b: BarPlan, notch: Notch, steps: boolean, writer: Writer): string[] {
  const { length, angle } = writer;
  const { saw, hole } = notch;
  const lines: string[] = [];
  const cuts = notch.cuts.map((c) => `  cut for ${c.host}: ${cutText(b, c.cut, c.hole, writer)}`);
  if (notch.useWrap)
    lines.push(cuts.length > 0 ? "  use the wrap, or one cut for each host:" : "  use the wrap");
  if (notch.useWrap) lines.push(...cuts);
  if (saw && hole) {
    lines.push(`  ${notch.useWrap ? "rough out with " : ""}${cutText(b, saw.cut, hole, writer)}`);
    if (notch.exact) lines.push("  the cut is exact: no gap");
    else if (notch.flush)
      lines.push(
        `  no gap where the rim meets the host; it stays open at ${sayArcs(joinedArcs(notch.open), writer)}`,
      );
    else {
      lines.push(
        `  leaves up to ${length(saw.most)} standing at ${angle(saw.mostAt)}; unfiled the bar stands off ${length(saw.standsOff)}`,
      );
      lines.push(`  and gaps up to ${length(saw.gap)} at ${angle(saw.gapAt)}`);
    }
  } else lines.push("  no saw cut");
  if (notch.useWrap) return lines;
  lines.push(...cuts);
  if (steps && notch.steps) lines.push(...stepsText(notch, notch.steps, writer));
  return lines;
}

function cutText(b: BarPlan, cut: SawCut, hole: HoleCentre, { length, angle }: Writer): string {
  const clock = wrapPi(cut.clock);
  const way = clock >= 0 ? "counter-clockwise" : "clockwise";
  const side =
    cut.offset === 0
      ? "no side offset"
      : `side offset ${length(Math.abs(cut.offset))} toward the line a quarter turn ${cut.offset > 0 ? "counter-clockwise" : "clockwise"} of the heel`;
  const bend = hole.fromBend === undefined ? "" : `, ${length(hole.fromBend)} from the bend`;
  const beyond = `${length(Math.abs(hole.beyondLong))} ${hole.beyondLong >= 0 ? "beyond" : "short of"} the long point`;
  return (
    `saw ${length(2 * cut.radius)}, ${angle(deg(cut.notch))} off square, ${side}; ` +
    `heel ${angle(Math.abs(deg(clock)))} ${way} of the zero line (${length(Math.abs(roundTube(b, clock)))} round the tube), looking at the cut end; ` +
    `hole centre ${beyond}${bend}, ${length(hole.fromSawn)} in from the sawn end`
  );
}

function stepsText(notch: Notch, plan: NonNullable<Notch["steps"]>, { length, angle }: Writer): string[] {
  const isLast = (s: Step): boolean => s === plan.steps.at(-1);
  const shows = (s: Step): string =>
    isLast(s) && notch.exact
      ? "then it seats"
      : isLast(s) && notch.flush
        ? "then it seats where the rim meets the host"
        : `set up at the true angle it stands off ${length(s.shows.standsOff)}; gap ${length(s.shows.gap)} at the ${gapSide(s.shows)}, square to the host`;
  const lines = plan.steps.map(
    (s, i) =>
      `  cut ${i + 1}: ${angle(deg(s.notch))} off square, hole centre ${isLast(s) ? "in its final place" : `${length(s.outboard)} outboard of the final one`}; ${shows(s)}`,
  );
  lines.push(
    `  leave ${length(plan.leave)} over, if the angle is only known from ${angle(deg(plan.range[0]))} to ${angle(deg(plan.range[1]))}`,
  );
  lines.push(
    plan.ruleHolds
      ? `  start shallow and deepen: 5° that way costs ${length(plan.fromShallower)}, coming back from 5° too steep ${length(plan.fromSteeper)}`
      : `  starting shallow saves little here: 5° from either side costs ${length(plan.fromShallower)} or ${length(plan.fromSteeper)}; start at the angle you believe most`,
  );
  return lines;
}
