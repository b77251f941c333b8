/** Readings of bars as they were made: from the file to what the program computes with, and the names in them. */
import { given } from "./given.ts";
import type { Made } from "./made-types.ts";
import { entriesOf, isDict, listOf, own } from "./peek.ts";
import type { Path } from "./problem.ts";
import type { FileMade } from "./schema-made.ts";

/** What was read of one bar; lists that are not there are empty. */
export function madeOf(file: FileMade): Made {
  const { bent, tacked, gaps, stale } = file;
  const gapsAt = (end: "A" | "B") => {
    const read = gaps?.[end];
    if (!read) return undefined;
    const readings = read.read.map((r) => given(r));
    return { cut: read.cut, roll: read.roll ?? 0, outboard: read.outboard ?? 0, read: readings };
  };
  return {
    bent: (bent ?? []).map((r) => given(r)),
    tacked: (tacked ?? []).map((r) => given({ ...r, over: r.over ?? "outside" })),
    gaps: given({ A: gapsAt("A"), B: gapsAt("B") }),
    ...(stale ? { stale: given(stale) } : {}),
  };
}

/** Every bar and point that these readings name beside the bar read, with its path; a wrong type is passed over. */
export function namesInMade(
  document: unknown,
  found: (kind: "point" | "bar", name: unknown, path: Path) => void,
): void {
  for (const [id, bar] of entriesOf(document, "made")) {
    listOf(own(bar, "tacked")).forEach((reading, i) => {
      for (const key of ["from", "to", "of"]) {
        const spot = own(reading, key);
        const at: Path = ["made", id, "tacked", i, key];
        found("point", spot, at);
        if (isDict(spot)) found("bar", own(spot, "bar"), [...at, "bar"]);
      }
    });
  }
}
