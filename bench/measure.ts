import { cpus } from "node:os";

/** Median of a list. */
export function median(list: readonly number[]): number {
  const sorted = [...list].sort((a, b) => a - b);
  const middle = sorted.length >> 1;
  return sorted.length % 2 === 1 ? sorted[middle]! : (sorted[middle - 1]! + sorted[middle]!) / 2;
}

let sink = 0;
/** Keeps a result from being dropped as unused. */
export const consume = (value: number): void => {
  sink += value;
};

/** Milliseconds of several ways, run in turn so that a slow spell of the machine hits all alike; medians. */
export function inTurn(ways: readonly (() => number)[], runs: number, warmUp: number): number[] {
  const times: number[][] = ways.map(() => []);
  for (let run = -warmUp; run < runs; run++) {
    ways.forEach((way, i) => {
      const start = performance.now();
      consume(way());
      if (run >= 0) times[i]!.push(performance.now() - start);
    });
  }
  return times.map(median);
}

export const machine = (): string => {
  const all = cpus();
  return `${all[0]?.model.trim() ?? "unknown"}, ${all.length} cores, Node ${process.versions.node}`;
};

/** One row: what, how much, the promise, and whether it is kept. */
export interface Row {
  readonly what: string;
  readonly value: number;
  readonly unit: string;
  readonly promise?: { readonly atMost?: number; readonly atLeast?: number };
}

export const kept = ({ value, promise }: Row): boolean =>
  (promise?.atMost === undefined || value <= promise.atMost) &&
  (promise?.atLeast === undefined || value >= promise.atLeast);

export function print(rows: readonly Row[]): void {
  for (const row of rows) {
    const { atMost, atLeast } = row.promise ?? {};
    const promise =
      atMost !== undefined ? `at most ${atMost}` : atLeast !== undefined ? `at least ${atLeast}` : "";
    const verdict = row.promise ? (kept(row) ? "kept" : "BROKEN") : "";
    console.log(
      `${row.what.padEnd(74)}${row.value.toFixed(2).padStart(10)} ${row.unit.padEnd(5)}${promise.padEnd(15)}${verdict}`,
    );
  }
}

export const sunk = (): number => sink;
