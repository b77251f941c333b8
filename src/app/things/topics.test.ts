import { describe, expect, it } from "vitest";
import { at, type Command, type JobDocument, type Json, setValue } from "../model/document/index.ts";
import { frame } from "../model/document/testing.ts";
import { chosen, type Entry, type Field, HOME, optionOf, THING_KINDS } from "./field.ts";
import { added, built, placeWith } from "./place-with.ts";
import { fieldsOf, newThing, sheetsOf } from "./topics.ts";

const did = (document: JobDocument, command: Command): JobDocument => {
  const done = command.edit(document);
  return done.ok ? done.document : expect.fail(done.lines.join("\n"));
};

describe("tubes, dies, plates and points", () => {
  it("each new one passes as it is put in, in either unit, and can be edited field by field", () => {
    for (const unit of ["mm", "in"] as const)
      for (const kind of THING_KINDS) {
        const document = did(frame(), setValue([HOME[kind], "added"], newThing(kind, unit)));
        for (const field of fieldsOf(document, kind, "added")) {
          if (field.kind !== "length") continue;
          const to = field.label === "wall" ? 3 : 100;
          const [path, whole] = placeWith(document, field.path, to);
          expect(at(did(document, setValue(path, whole)), field.path), field.label).toBe(to);
        }
      }
  });

  it("a plate gets both sides at once, the way they run as words or numbers, and loses them again", () => {
    const path = ["plates", "added"];
    const fresh = did(frame(), setValue(path, newThing("plate", "mm")));
    const field = (document: JobDocument, label: string): Field =>
      fieldsOf(document, "plate", "added").find((f) => f.label === label)!;
    const set = (document: JobDocument, label: string, to: Json | undefined): JobDocument =>
      did(document, setValue(...placeWith(document, field(document, label).path, to)));
    const square = set(fresh, "first side", 120);
    expect(at(square, [...path, "size"])).toEqual([120, 120]);
    const sized = set(square, "second side", "3 in");
    expect(at(sized, [...path, "size"])).toEqual([120, "3 in"]);
    const runs = field(sized, "direction of the first side");
    if (runs.kind !== "choice") throw new Error("the way is chosen");
    expect(optionOf(runs, undefined)).toBe("not set");
    const forward = set(sized, "direction of the first side", chosen(runs, "forward"));
    expect(at(forward, [...path, "along"])).toEqual([1, 0, 0]);
    expect(optionOf(runs, at(forward, [...path, "along"]))).toBe("forward");
    const askew = set(forward, "first side, left", 0.5);
    expect(at(askew, [...path, "along"])).toEqual([1, 0.5, 0]);
    expect(optionOf(runs, at(askew, [...path, "along"]))).toBe("another way");
    const none = set(
      set(askew, "direction of the first side", chosen(runs, "not set")),
      "second side",
      undefined,
    );
    expect([at(none, [...path, "along"]), at(none, [...path, "size"])]).toEqual([undefined, undefined]);
  });

  it("both legs of a test bend put in without them are entered together, and taken out together", () => {
    const home = ["dies", "added"];
    const bend = { ...(newThing("die", "mm") as object), tests: [{ set: 94, got: 90 }] } as Json;
    const bare = did(frame(), setValue(home, bend));
    const test = (document: JobDocument): Entry =>
      sheetsOf(document, "die").find((s) => s.thing?.id === "added")!.lists![0]!.entries[0]!;
    expect(test(bare).fields.some((f) => f.path.includes("legs"))).toBe(false);
    const [add] = test(bare).adds!;
    const read = did(
      bare,
      setValue(...added(bare, add!.to(bare, ""), built(add!.asks, [352.5, "13 7/8 in"])), add!.says),
    );
    expect(at(read, [...home, "tests", 0, "legs"])).toEqual([352.5, "13 7/8 in"]);
    expect(test(read).adds).toBeUndefined();
    const legB = test(read).fields.filter((f) => f.path.includes("legs"))[1]!;
    const gone = did(read, setValue(...placeWith(read, legB.path, undefined)));
    expect(at(gone, [...home, "tests", 0])).toEqual({ set: 94, got: 90 });
  });

  it("an unknown point gets its three coordinates at once", () => {
    const document = did(frame(), setValue(["points", "somewhere"], {}));
    const [field] = fieldsOf(document, "point", "somewhere");
    const [path, to] = placeWith(document, field!.path, 120);
    expect(at(did(document, setValue(path, to)), ["points", "somewhere", "at"])).toEqual([120, 0, 0]);
  });
});
