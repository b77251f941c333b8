// biome-ignore-all lint/style/noNonNullAssertion: every bar has its stations and its row in the maps, landed holds bars that are given, and what counts nodes is an index of nodes
import { closestOnPiece, placeAt } from "../bar/index.ts";
import type { End } from "../job/types.ts";
import type { ResolvedBar } from "../layout/types.ts";
import { dist, type Vec } from "../space/index.ts";
import { STEEL, sectionOf } from "../tube/index.ts";
import { rigidBeside } from "./element.ts";
import type { Frame, Member, Stiffness } from "./types.ts";

/** A bend is cut into chords of no more than this (radians): its length then falls short by 0.13 %. */
const CHORD = Math.PI / 18;
/** Stations nearer than this are one node (mm). */
const ONE = 0.5;

export const stiffOf = (tube: Parameters<typeof sectionOf>[0]): Stiffness => {
  const { area, inertia, torsion } = sectionOf(tube);
  return { axial: STEEL.young * area, bending: STEEL.young * inertia, torsion: STEEL.shear * torsion };
};

/** Somewhere on a bar's centreline that must be a node: by its station (mm). */
export interface Spot {
  readonly bar: string;
  readonly station: number;
}

/** Where on a bar's centreline a place is nearest. */
export function spotNear(bar: ResolvedBar, place: Vec): Spot {
  const found = bar.centreline.pieces.map((piece) => closestOnPiece(piece, place));
  return { bar: bar.id, station: found.reduce((a, b) => (b.distance < a.distance ? b : a)).s };
}

/**
 * The frame that tacked bars make: every bar along its centreline, bends as chords, rigidly joined where it lands;
 * ends on plates held in all six ways, an end that lands on a bar that is not there free. A landing beside its host's
 * centreline is tied to it by a block. What no plate holds is left out. `spots` become nodes.
 */
export function frameOf(
  bars: readonly ResolvedBar[],
  spots: readonly Spot[] = [],
): { readonly frame: Frame; readonly nodeAt: (spot: Spot) => number | undefined } {
  const byId = new Map(bars.map((b) => [b.id, b]));
  const stations = new Map(bars.map((b) => [b.id, ownStations(b)]));
  const landed = bars.flatMap((b) =>
    (["A", "B"] as const).flatMap((end) => {
      const seat = b.seat[end];
      const host = seat.kind === "on" ? byId.get(seat.hosts[0]!) : undefined;
      return host && seat.kind === "on" ? [{ b, end, host, along: seat.along }] : [];
    }),
  );
  for (const { host, along } of landed) stations.get(host.id)!.push(along);
  for (const s of spots) stations.get(s.bar)?.push(s.station);
  const nodes: Vec[] = [];
  const members: Member[] = [];
  const rows = new Map<string, { readonly s: number; readonly node: number }[]>();
  for (const bar of bars) {
    const stiff = stiffOf(bar.tube);
    const row: { readonly s: number; readonly node: number }[] = [];
    for (const s of stations.get(bar.id)!.sort((a, b) => a - b)) {
      const before = row[row.length - 1];
      if (before && s - before.s < ONE) continue;
      nodes.push(placeAt(bar.centreline, s).at);
      if (before) members.push({ a: before.node, b: nodes.length - 1, of: stiff });
      row.push({ s, node: nodes.length - 1 });
    }
    rows.set(bar.id, row);
  }
  const nearest = (id: string, s: number): number =>
    rows.get(id)!.reduce((a, b) => (Math.abs(b.s - s) < Math.abs(a.s - s) ? b : a)).node;
  const joined = nodes.map((_, i) => i);
  for (const { b, end, host, along } of landed) {
    const own = nearest(b.id, end === "A" ? 0 : b.centreline.length);
    const on = nearest(host.id, along);
    if (dist(nodes[own]!, nodes[on]!) < ONE) joined[own] = on;
    else members.push({ a: own, b: on, of: rigidBeside(stiffOf(host.tube)) });
  }
  const root = (n: number): number => (joined[n] === n ? n : root(joined[n]!));
  const held = bars.flatMap((b) =>
    (["A", "B"] as const).flatMap((end: End) =>
      b.seat[end].kind === "plate" ? [root(nearest(b.id, end === "A" ? 0 : b.centreline.length))] : [],
    ),
  );
  const tied = members.map((m): Member => ({ ...m, a: root(m.a), b: root(m.b) }));
  const { frame, number } = heldPart(nodes, tied, held);
  const nodeAt = ({ bar, station }: Spot): number | undefined =>
    rows.has(bar) ? number(root(nearest(bar, station))) : undefined;
  return { frame, nodeAt };
}

function ownStations(bar: ResolvedBar): number[] {
  return bar.centreline.pieces.flatMap((piece) => {
    const n = piece.kind === "arc" ? Math.ceil(piece.angle / CHORD) : 1;
    return Array.from({ length: n + 1 }, (_, i) => piece.s0 + (piece.length * i) / n);
  });
}

/** What hangs together with a held node, numbered anew. */
function heldPart(
  nodes: readonly Vec[],
  members: readonly Member[],
  held: readonly number[],
): { readonly frame: Frame; readonly number: (node: number) => number | undefined } {
  const next = new Map<number, number[]>();
  for (const { a, b } of members) {
    next.set(a, [...(next.get(a) ?? []), b]);
    next.set(b, [...(next.get(b) ?? []), a]);
  }
  const reached = new Set(held);
  for (const n of reached) for (const m of next.get(n) ?? []) reached.add(m);
  const kept = [...reached];
  const number = new Map(kept.map((n, i) => [n, i]));
  return {
    frame: {
      nodes: kept.map((n) => nodes[n]!),
      members: members.flatMap((m) => {
        const [a, b] = [number.get(m.a), number.get(m.b)];
        return a === undefined || b === undefined ? [] : [{ ...m, a, b }];
      }),
      held: [...new Set(held)].map((n) => number.get(n)!),
    },
    number: (n) => number.get(n),
  };
}
