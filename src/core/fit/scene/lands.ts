// biome-ignore-all lint/style/noNonNullAssertion: every bar of the fitting has its entry in the map.
import type { FitBar } from "./fitbar.ts";

/** Each bar to the bars that it lands on. */
export type LandsOn = ReadonlyMap<string, readonly string[]>;

export const landsOnOf = (bars: readonly FitBar[]): LandsOn =>
  new Map(bars.map((b) => [b.bar.id, [...b.hosts.A, ...b.hosts.B].map((h) => h.id)]));

/** Bars so that each comes after those it lands on. */
export function inTurn(ids: readonly string[], landsOn: LandsOn): readonly string[] {
  const out: string[] = [];
  const add = (id: string): void => {
    if (out.includes(id)) return;
    for (const host of landsOn.get(id)!) if (ids.includes(host)) add(host);
    out.push(id);
  };
  for (const id of ids) add(id);
  return out;
}

/** All that a bar stands on, down to the ground, but itself. */
export function above(id: string, landsOn: LandsOn): readonly string[] {
  const out = new Set<string>();
  const add = (of: string): void => {
    for (const h of landsOn.get(of) ?? []) {
      if (out.has(h)) continue;
      out.add(h);
      add(h);
    }
  };
  add(id);
  return [...out];
}

/** A set of bars with all that lands on them: a bar cannot be tacked to one that is not. */
export function withLanders(
  gone: readonly string[],
  among: readonly string[],
  landsOn: LandsOn,
): ReadonlySet<string> {
  const out = new Set(gone);
  for (let grown = true; grown; ) {
    grown = false;
    for (const id of among) {
      if (!out.has(id) && landsOn.get(id)!.some((h) => out.has(h))) {
        out.add(id);
        grown = true;
      }
    }
  }
  return out;
}
