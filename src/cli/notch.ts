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
import { NOTCH_ANSWER as SAYS, sayArcs, sayCut } from "../words/index.ts";

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
  const cuts = notch.cuts.map((c) => SAYS.cutFor(c.host, cutText(b, c.cut, c.hole, writer)));
  if (notch.useWrap) lines.push(cuts.length > 0 ? SAYS.wrapOrCuts : SAYS.wrap, ...cuts);
  if (saw && hole) {
    lines.push(SAYS.cut(cutText(b, saw.cut, hole, writer), notch.useWrap));
    if (notch.exact) lines.push(SAYS.exact);
    else if (notch.flush) lines.push(SAYS.flush(sayArcs(joinedArcs(notch.open), writer)));
    else {
      const { most, mostAt, standsOff, gap, gapAt } = saw;
      lines.push(...SAYS.leaves(length(most), angle(mostAt), length(standsOff), length(gap), angle(gapAt)));
    }
  } else lines.push(SAYS.none);
  if (notch.useWrap) return lines;
  lines.push(...cuts);
  if (steps && notch.steps) lines.push(...stepsText(notch, notch.steps, writer));
  return lines;
}

function cutText(b: BarPlan, cut: SawCut, hole: HoleCentre, { length, angle }: Writer): string {
  const clock = wrapPi(cut.clock);
  return sayCut({
    saw: length(2 * cut.radius),
    angle: angle(deg(cut.notch)),
    offset:
      cut.offset === 0 ? undefined : { by: length(Math.abs(cut.offset)), counterClockwise: cut.offset > 0 },
    clock: angle(Math.abs(deg(clock))),
    counterClockwise: clock >= 0,
    round: length(Math.abs(roundTube(b, clock))),
    beyond: length(Math.abs(hole.beyondLong)),
    isBeyond: hole.beyondLong >= 0,
    fromBend: hole.fromBend === undefined ? undefined : length(hole.fromBend),
    fromSawn: length(hole.fromSawn),
  });
}

function stepsText(notch: Notch, plan: NonNullable<Notch["steps"]>, { length, angle }: Writer): string[] {
  const says = SAYS.steps;
  const isLast = (s: Step): boolean => s === plan.steps.at(-1);
  const shows = (s: Step): string =>
    isLast(s) && notch.exact
      ? says.seats
      : isLast(s) && notch.flush
        ? says.flush
        : says.shows(length(s.shows.standsOff), length(s.shows.gap), gapSide(s.shows));
  const lines = plan.steps.map((s, i) => {
    const hole = isLast(s) ? says.final : says.outboard(length(s.outboard));
    return says.cut(i + 1, angle(deg(s.notch)), hole, shows(s));
  });
  const [low, high] = plan.range;
  lines.push(says.leave(length(plan.leave), angle(deg(low)), angle(deg(high))));
  const rule = plan.ruleHolds ? says.holds : says.fails;
  return [...lines, rule(length(plan.fromShallower), length(plan.fromSteeper))];
}
