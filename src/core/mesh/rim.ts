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
const COARSE_SAG = 0.6;
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
  const outer = cope.outer.map((b) => (Number.isNaN(b) ? 0 : b));
  const bore = cope.bore.map((b) => (Number.isNaN(b) ? 0 : b));
  const coarse = chosen(outer, bore, coarseAround, COARSE_SAG);
  const fine = new Set([...chosen(outer, bore, around, SAG), ...coarse]);
  const lines = [...fine].map((phi): RimLine => {
    const psi = sense * rad(phi) + offset;
    return {
      psi: psi - 2 * Math.PI * Math.floor(psi / (2 * Math.PI)),
      outer: outer[phi]!,
      bore: bore[phi]!,
      coarse: coarse.has(phi),
      open: Number.isNaN(cope.outer[phi]!) || Number.isNaN(cope.bore[phi]!),
    };
  });
  return lines.sort((a, b) => a.psi - b.psi);
}

/** Degrees in [0, 360): evenly spread and alike to both sides of the zero line, then split where the chord sags. */
function chosen(outer: Float64Array, bore: Float64Array, around: number, sag: number): Set<number> {
  const even = new Set<number>([0, LINES]);
  for (let i = 0; i <= around / 2; i++) {
    const phi = Math.round((i * LINES) / around);
    even.add(phi);
    even.add(LINES - phi);
  }
  const base = [...even].sort((a, b) => a - b);
  const out = new Set<number>(base);
  const split = (i: number, j: number): void => {
    let worst = sag;
    let at = -1;
    for (let k = i + 1; k < j; k++) {
      const t = (k - i) / (j - i);
      for (const curve of [outer, bore]) {
        const chord = curve[i]! + t * (curve[j % LINES]! - curve[i]!);
        const off = Math.abs(curve[k]! - chord);
        if (off > worst) {
          worst = off;
          at = k;
        }
      }
    }
    if (at < 0) return;
    out.add(at);
    split(i, at);
    split(at, j);
  };
  base.forEach((phi, i) => {
    const next = base[i + 1];
    if (next !== undefined) split(phi, next);
  });
  out.delete(LINES);
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
