// biome-ignore-all lint/style/noNonNullAssertion: row and those before it have b.length + 1 entries, and j runs from 1 to b.length.
/** Edit distance (insert, drop, replace, swap of neighbours each cost 1), the optimal string alignment distance. */
export function editDistance(a: string, b: string): number {
  let before: number[] = [];
  let above = Array.from({ length: b.length + 1 }, (_, j) => j);
  for (let i = 1; i <= a.length; i++) {
    const row = [i];
    for (let j = 1; j <= b.length; j++) {
      const same = a[i - 1] === b[j - 1] ? 0 : 1;
      let least = Math.min(above[j]! + 1, row[j - 1]! + 1, above[j - 1]! + same);
      if (i > 1 && j > 1 && a[i - 1] === b[j - 2] && a[i - 2] === b[j - 1])
        least = Math.min(least, before[j - 2]! + 1);
      row.push(least);
    }
    [before, above] = [above, row];
  }
  return above[b.length]!;
}

/** Names longer than this are not compared. */
const LONGEST_NAME = 64;

/**
 * "Did you mean" over the names that a job has. One instance serves one reading and stops suggesting when its
 * allowance of letter comparisons is spent, so that a file with thousands of slips is still answered at once.
 */
export class Suggester {
  private left = 4_000_000;

  /** The name that comes closest, within a third of the letters; undefined where none does. */
  closest(name: string, names: Iterable<string>): string | undefined {
    const wanted = name.toLowerCase();
    let best: string | undefined;
    let least = Number.POSITIVE_INFINITY;
    if (wanted.length > LONGEST_NAME) return undefined;
    for (const candidate of names) {
      if (--this.left < 0) return best;
      const allowed = Math.floor(Math.max(candidate.length, wanted.length) / 3);
      if (Math.abs(candidate.length - wanted.length) >= Math.min(least, allowed + 1)) continue;
      this.left -= candidate.length * wanted.length;
      const distance = editDistance(wanted, candidate.toLowerCase());
      if (distance < least && distance <= allowed) [best, least] = [candidate, distance];
      if (least === 0) break;
    }
    return best;
  }
}
