// biome-ignore-all lint/style/noNonNullAssertion: held are indices of contacts; indices round the sorted angles are taken modulo their number.
import type { End } from "../../job/types.ts";
import type { Contact } from "./contacts.ts";

/** An arc of an end's rim that holds the bar (degrees, from may be greater than to: across 0). */
export interface Lip {
  readonly end: End;
  readonly host: string;
  readonly from: number;
  readonly to: number;
}

/** Contacts that stand closer together than this round an end are one lip (degrees). */
const ONE_LIP = 24;

/** Which arcs of the rims the contacts that hold a bar make up. */
export function lipsOf(contacts: readonly Contact[], held: ReadonlySet<number>): readonly Lip[] {
  const lips: Lip[] = [];
  const groups = new Map<string, { end: End; host: string; phis: number[] }>();
  for (const i of held) {
    const k = contacts[i]!;
    const key = `${k.end} ${k.host}`;
    const group = groups.get(key) ?? { end: k.end, host: k.host, phis: [] };
    group.phis.push(k.phi);
    groups.set(key, group);
  }
  for (const { end, host, phis } of groups.values()) {
    const sorted = [...new Set(phis)].sort((a, b) => a - b);
    // Cut the ring at its widest empty arc, then wherever an empty arc is wide enough.
    const gap = (i: number): number => (sorted[(i + 1) % sorted.length]! - sorted[i]! + 360) % 360 || 360;
    const start = sorted.reduce((best, _, i) => (gap(i) > gap(best) ? i : best), 0);
    let from = sorted[(start + 1) % sorted.length]!;
    for (let n = 1; n <= sorted.length; n++) {
      const i = (start + n) % sorted.length;
      if (n < sorted.length && gap(i) < ONE_LIP) continue;
      lips.push({ end, host, from, to: sorted[i]! });
      from = sorted[(i + 1) % sorted.length]!;
    }
  }
  return lips;
}
