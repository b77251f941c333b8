import type { Writer } from "../core/findings/index.ts";
import { isByGap, type Judged, type Packing, type Reach } from "../core/fit/index.ts";
import type { Job } from "../core/job/index.ts";
import { formatLength, writerFor } from "../core/units/index.ts";
import { sayWhy } from "../words/index.ts";

/** Lengths from hundredths of a millimetre to metres, in the job's unit. */
export type Fine = (mm: number) => string;

/** Small ones finer than a tape reads: hundredths of a millimetre, or thousandths of an inch. */
export const fineFor = ({ show }: Job): Fine => {
  const { length } = writerFor(show);
  const style = { unit: show.length, fraction: show.fraction, decimals: 2, inchDecimals: 3 };
  return (mm) => (Math.abs(mm) < SMALL[show.length] ? formatLength(mm, style) : length(mm));
};

/** Up to here a length is small (mm). */
const SMALL = { mm: 0.995, in: 6.35 };

const percent = (share: number): string => `${Math.round(share * 100)} %`;

/** Weld reach where it is not whole, and packing where there is any. */
export function besides(
  reach: readonly Reach[],
  packing: Packing | undefined,
  writer: Writer,
): readonly string[] {
  const lines: string[] = [];
  for (const r of reach) {
    if (r.last === 1) continue;
    const closed = r.before.map((b) => `${percent(b.share)} before ${b.bar} goes in`).join(", ");
    const roof = r.roofOff > r.last ? `, ${percent(r.roofOff)} with the roof off` : "";
    const low = r.lowered
      ? `, ${percent(r.lowered.share)} with the cage ${writer.length(r.lowered.by)} lower in the body`
      : "";
    const text = closed === "" ? "" : `; weld ${closed}`;
    lines.push(
      `end ${r.end}: the torch gets to ${percent(r.last)} of the ring with all bars in${roof}${low}${text}`,
    );
  }
  if (packing && (packing.flat.A !== 0 || packing.flat.B !== 0)) {
    const { A, B } = packing.flat;
    const on = packing.on.A === packing.on.B ? packing.on.A : `${packing.on.A} and ${packing.on.B}`;
    lines.push(
      `an edge across ${on} clears it by ${writer.length(A)} at A and ${writer.length(B)} at B (a 90° angle: ${writer.length(packing.angle.A)} and ${writer.length(packing.angle.B)})`,
    );
  }
  return lines;
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
  const sprung = isByGap(j) ? "goes in with a gap" : "goes in sprung";
  const word = {
    free: "goes in",
    touches: "goes in, touching",
    spring: sprung,
    no: "does not go in",
    unknown: "unknown",
  }[j.goesIn];
  if (j.goesIn === "unknown") return `${word}: ${sayWhy(j.why, write)}`;
  const through = j.through.length > 0 ? `; through ${j.through.join(" and ")}` : "";
  const clear =
    j.clearance === undefined || !j.nearest ? "" : `; nearest ${j.nearest}, ${write(j.clearance)}`;
  return `${word} (joint: ${j.joint}): ${sayWhy(j.why, write)}${through}${clear}`;
}
