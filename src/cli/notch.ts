import type { HoleCentre, Notch, SawCut, Step } from "../core/cope/index.ts";
import type { Writer } from "../core/findings/index.ts";
import { deg, wrapPi } from "../core/numeric/index.ts";
import type { BarPlan } from "../core/plan/index.ts";

/** Millimetres round the outside of the tube for an angle about it (radians). */
const roundTube = (b: BarPlan, angle: number): number => (angle * b.bar.tube.od) / 2;

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

/** What a person at the notcher needs of one end, line by line. */
export function notchText(b: BarPlan, notch: Notch, steps: boolean, writer: Writer): string[] {
  const { length, angle } = writer;
  const { saw, hole } = notch;
  const lines: string[] = [];
  if (saw && hole) {
    lines.push(`  ${cutText(b, saw.cut, hole, writer)}`);
    if (notch.exact) lines.push("  the cut is exact: no gap");
    else {
      lines.push(
        `  leaves up to ${length(saw.most)} standing at ${angle(saw.mostAt)}; unfiled the bar stands off ${length(saw.standsOff)}`,
      );
      lines.push(`  and gaps up to ${length(saw.gap)} at ${angle(saw.gapAt)}`);
    }
  }
  if (notch.useWrap) lines.push("  use the wrap");
  for (const c of notch.cuts) lines.push(`  cut for ${c.host}: ${cutText(b, c.cut, c.hole, writer)}`);
  if (steps && notch.steps) lines.push(...stepsText(notch.steps, writer));
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

function stepsText(plan: NonNullable<Notch["steps"]>, { length, angle }: Writer): string[] {
  const shows = (s: Step): string =>
    s.outboard === 0 && s.shows.gap < 1e-6
      ? "then it seats"
      : `set up at the true angle it stands off ${length(s.shows.standsOff)} and gaps ${length(s.shows.gap)} at the ${s.shows.gapAt > 90 && s.shows.gapAt < 270 ? "toe" : "heel"}`;
  const lines = plan.steps.map(
    (s, i) =>
      `  cut ${i + 1}: ${angle(deg(s.notch))} off square, hole centre ${length(s.outboard)} outboard of the last one; ${shows(s)}`,
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
