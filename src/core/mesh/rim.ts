// biome-ignore-all lint/style/noNonNullAssertion: φ and the indices beside it run below the LINES + 1 entries of a landed curve; an end has one line at least.
import type { Cope } from "../cope/types.ts";
import { rad } from "../numeric/index.ts";

/** One wall line at an end, in the angle ψ that both ends share (radians in [0, 2π)). */
export interface RimLine {
  readonly psi: number;
  /** Back at the outside and at the bore (mm); 0, the landing plane, where the line misses. */
  readonly outer: number;
  readonly bore: number;
  /** True where the line meets nothing at the outside or the bore. */
  readonly open: boolean;
  /** Whether the coarse mesh has it too. */
  readonly coarse: boolean;
}

/** Straight chords stand for the rim where they leave it by less than this (mm along the bar). */
const SAG = 0.08;
const COARSE_SAG = 0.9;
const LINES = 360;

/**
 * The lines that stand for an end's curve, ψ ascending: about `around` of the computed ones evenly spread, and as many
 * more as its curves need. Only computed lines are taken (whole degrees of φ), so that each lies on the host as exactly
 * as the cope does. ψ = sense·φ + offset.
 */
export function rimLines(
  cope: Cope,
  around: number,
  coarseAround: number,
  sense: 1 | -1,
  offset: number,
): RimLine[] {
  const outer = landed(cope.outer);
  const bore = landed(cope.bore);
  const coarse = chosen(outer, bore, coarseAround, COARSE_SAG);
  const fine = chosen(outer, bore, around, SAG);
  const lines: RimLine[] = [];
  for (let phi = 0; phi < LINES; phi++) {
    if (!fine[phi] && !coarse[phi]) continue;
    const psi = sense * rad(phi) + offset;
    lines.push({
      psi: psi - 2 * Math.PI * Math.floor(psi / (2 * Math.PI)),
      outer: outer[phi]!,
      bore: bore[phi]!,
      coarse: coarse[phi] === 1,
      open: Number.isNaN(cope.outer[phi]!) || Number.isNaN(cope.bore[phi]!),
    });
  }
  return lines.sort((a, b) => a.psi - b.psi);
}

/** A curve that runs to the landing plane where it misses, its first line again at its end. */
function landed(curve: Float64Array): Float64Array {
  const out = new Float64Array(LINES + 1);
  for (let i = 0; i <= LINES; i++) {
    const b = curve[i % LINES]!;
    out[i] = Number.isNaN(b) ? 0 : b;
  }
  return out;
}

/**
 * Which degrees in [0, 360] (1 where chosen): evenly spread and alike to both sides of the zero line, then split where
 * the chord sags.
 */
function chosen(outer: Float64Array, bore: Float64Array, around: number, sag: number): Uint8Array {
  const out = new Uint8Array(LINES + 1);
  for (let i = 0; i <= around / 2; i++) {
    const phi = Math.round((i * LINES) / around);
    out[phi] = 1;
    out[LINES - phi] = 1;
  }
  const split = (i: number, j: number): void => {
    let worst = sag;
    let at = -1;
    for (let k = i + 1; k < j; k++) {
      const t = (k - i) / (j - i);
      const off = Math.max(
        Math.abs(outer[k]! - (outer[i]! + t * (outer[j]! - outer[i]!))),
        Math.abs(bore[k]! - (bore[i]! + t * (bore[j]! - bore[i]!))),
      );
      if (off > worst) {
        worst = off;
        at = k;
      }
    }
    if (at < 0) return;
    out[at] = 1;
    split(i, at);
    split(at, j);
  };
  const even = out.slice();
  let before = 0;
  for (let phi = 1; phi <= LINES; phi++) {
    if (even[phi] === 0) continue;
    split(before, phi);
    before = phi;
  }
  return out;
}

/** Back at any ψ, straight between the lines. */
export function depthAt(lines: readonly RimLine[], wall: "outer" | "bore", psi: number): number {
  const after = lines.findIndex((l) => l.psi > psi);
  const b = lines[Math.max(after, 0)]!;
  const a = lines[(after <= 0 ? lines.length : after) - 1]!;
  const turn = 2 * Math.PI;
  const span = (b.psi - a.psi + turn) % turn;
  const t = span === 0 ? 0 : ((psi - a.psi + turn) % turn) / span;
  return a[wall] + t * (b[wall] - a[wall]);
}
