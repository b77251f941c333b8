/** Bars as they were made and read: from the file to what the program computes with, and the names in them. */
import { given } from "./given.ts";
import type { CutHost, Made, MadeTo, NotchedTo } from "./made-types.ts";
import { entriesOf, isDict, listOf, own } from "./peek.ts";
import type { Path } from "./problem.ts";
import type { FileAsBuilt, FileKnown, FileMade } from "./schema-made.ts";
import type { FileCutHost, FileNotched, FileTo } from "./schema-to.ts";
import type { AsBuilt } from "./types.ts";

/** What was made and read of one bar; lists that are not there are empty. */
export function madeOf(file: FileMade): Made {
  const { past } = file;
  return {
    ...knownOf(file),
    past: (past ?? []).map(({ progress, asBuilt, ...known }) => ({
      ...knownOf(known),
      ...given({ progress, asBuilt: asBuilt && asBuiltOf(asBuilt) }),
    })),
  };
}

/** A bar as it was built. */
export const asBuiltOf = ({ path, over }: FileAsBuilt): AsBuilt => ({
  path,
  ...(over === undefined ? {} : { over: given({ A: over.A, B: over.B }) }),
});

function knownOf({ to, bent, tacked, gaps }: FileKnown): Omit<Made, "past"> {
  const gapsAt = (end: "A" | "B") => {
    const read = gaps?.[end];
    if (!read) return undefined;
    const readings = read.read.map((r) => given(r));
    return { cut: read.cut, roll: read.roll ?? 0, outboard: read.outboard ?? 0, read: readings };
  };
  return {
    ...(to ? { to: madeToOf(to) } : {}),
    bent: (bent ?? []).map((r) => given(r)),
    tacked: (tacked ?? []).map((r) => given({ ...r, over: r.over ?? "outside" })),
    gaps: given({ A: gapsAt("A"), B: gapsAt("B") }),
  };
}

function madeToOf({ sawn, bent, notched, fitted, tacked }: FileTo): MadeTo {
  return given({
    sawn: sawn && given({ ...sawn, tube: given(sawn.tube) }),
    bent: bent && given({ ...bent, die: given(bent.die), bends: bent.bends.map((b) => given(b)) }),
    notched: notched && given({ A: notched.A && notchedOf(notched.A), B: notched.B && notchedOf(notched.B) }),
    fitted: fitted && given(fitted),
    tacked: tacked && given(tacked),
  });
}

function notchedOf(file: FileNotched): NotchedTo {
  if (file.by === "hole saw") return given(file);
  if (file.by === "wrap") return given({ ...file, bars: file.bars.map(hostOf) });
  return given({ ...file, plate: file.plate && given(file.plate) });
}

function hostOf({ A, B, ...host }: FileCutHost): CutHost {
  const endOf = (end: typeof A): CutHost["A"] =>
    end && ("plate" in end ? { plate: given(end.plate) } : { on: end.on });
  return given({ ...host, A: endOf(A), B: endOf(B) });
}

/** Every die, bar and point that these readings name beside the bar read, with its path; a wrong type is passed over. */
export function namesInMade(
  document: unknown,
  found: (kind: "point" | "bar" | "die", name: unknown, path: Path) => void,
): void {
  const ofTacked = (known: unknown, home: Path): void => {
    listOf(own(known, "tacked")).forEach((reading, i) => {
      for (const key of ["from", "to", "of"]) {
        const spot = own(reading, key);
        const at: Path = [...home, "tacked", i, key];
        found("point", spot, at);
        if (isDict(spot)) found("bar", own(spot, "bar"), [...at, "bar"]);
      }
    });
  };
  for (const [id, bar] of entriesOf(document, "made")) {
    ofTacked(bar, ["made", id]);
    const die = own(own(own(bar, "to"), "bent"), "die");
    found("die", own(die, "id"), ["made", id, "to", "bent", "die", "id"]);
    listOf(own(bar, "past")).forEach((thrown, i) => {
      ofTacked(thrown, ["made", id, "past", i]);
    });
  }
}
