import type { Writer } from "../core/findings/index.ts";
import { isByGap, type Judged, type Packing, type Reach } from "../core/fit/index.ts";
import type { Job } from "../core/job/index.ts";
import { shopWriterFor } from "../core/units/index.ts";
import { FIT_ANSWER, sayPercent, sayWhy } from "../words/index.ts";

/** Lengths from hundredths of a millimetre to metres, in the job's unit. */
export type Fine = (mm: number) => string;

/** Small ones finer than a tape reads: hundredths of a millimetre, or thousandths of an inch. */
export const fineFor = ({ show }: Job): Fine => {
  const { length, fine } = shopWriterFor(show);
  return (mm) => (Math.abs(mm) < SMALL[show.length] ? fine(mm) : length(mm));
};

/** Up to here a length is small (mm). */
const SMALL = { mm: 0.995, in: 6.35 };

/** Weld reach where it is not whole, and packing where there is any. */
export function besides(
  reach: readonly Reach[],
  packing: Packing | undefined,
  { length }: Writer,
): readonly string[] {
  const lines = reach
    .filter((r) => r.last !== 1)
    .map((r) =>
      FIT_ANSWER.reach({
        end: r.end,
        last: sayPercent(r.last),
        roofOff: r.roofOff > r.last ? sayPercent(r.roofOff) : undefined,
        lowered: r.lowered && { share: sayPercent(r.lowered.share), by: length(r.lowered.by) },
        before: r.before.map((b) => ({ share: sayPercent(b.share), bar: b.bar })),
      }),
    );
  if (!packing || (packing.flat.A === 0 && packing.flat.B === 0)) return lines;
  const { on, flat, angle } = packing;
  const both = (sizes: { readonly A: number; readonly B: number }): readonly [string, string] => [
    length(sizes.A),
    length(sizes.B),
  ];
  return [...lines, FIT_ANSWER.packing([on.A, on.B], both(flat), both(angle))];
}

/** One bar's answer as JSON. */
export const judgedJson = (j: Judged, write: Fine): object => ({
  bar: j.bar,
  after: j.after,
  goesIn: j.goesIn,
  joint: j.joint,
  way: j.way.map((p) => ({ at: p.at, turn: p.turn })),
  clearance: j.clearance,
  nearest: j.nearest,
  through: j.through,
  past: j.past,
  touches: j.touches,
  met: j.met,
  spring: j.spring,
  force: j.force,
  gap: j.gap,
  shorten: j.shorten,
  proved: j.proved,
  slides: j.slides,
  lips: j.lips,
  fouls: j.fouls.map((f) => ({ id: f.id, by: f.by })),
  blockedBy: j.blockedBy,
  stopped: j.stopped ?? false,
  why: sayWhy(j.why, write),
  code: j.why.map((part) => part.phrase),
});

/** One bar's answer as a line. */
export function sayJudged(j: Judged, write: Fine): string {
  if (j.goesIn === "unknown") return FIT_ANSWER.unknown(sayWhy(j.why, write));
  return FIT_ANSWER.judged({
    state: isByGap(j) ? FIT_ANSWER.state.byGap : FIT_ANSWER.state[j.goesIn],
    joint: j.joint,
    why: sayWhy(j.why, write),
    through: j.through,
    nearest:
      j.clearance === undefined || !j.nearest ? undefined : { id: j.nearest, away: write(j.clearance) },
  });
}
