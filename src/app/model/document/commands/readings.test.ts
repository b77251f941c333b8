import { describe, expect, it } from "vitest";
import { readJob } from "../../../../core/job/index.ts";
import { at, fromJson, type JobDocument, toJson } from "../../../../shared/index.ts";
import type { Command } from "../command.ts";
import { frame } from "../testing.ts";
import * as c from "./index.ts";

function did(document: JobDocument, ...commands: readonly Command[]): JobDocument {
  const next = commands.reduce((d, command) => {
    const edit = command.edit(d);
    if (!edit.ok) throw new Error(edit.lines.join("\n"));
    return edit.document;
  }, document);
  const read = readJob(next);
  expect(read.ok ? [] : read.problems).toEqual([]);
  expect(toJson(fromJson(next))).toEqual(next);
  return next;
}

const built = {
  path: [
    [0, 600, 0],
    [0, 600, 901],
    [0, -600, 901],
    [0, -600, 0],
  ],
};

describe("a reading", () => {
  it("goes behind the last one, unit and all, and is struck where it stands", () => {
    const tape = { tape: ["shoulder", { bar: "hoop", along: 400 }], length: "31 1/2 in" };
    const one = did(frame(), c.addReading(["readings"], { height: "shoulder", z: 620 }, "read a height"));
    const two = did(one, c.addReading(["readings"], tape, "read a tape"));
    expect(two.readings).toEqual([{ height: "shoulder", z: 620 }, tape]);
    const struck = did(two, c.strikeReading(["readings"], 1, true, "the tape hung on a bolt"));
    expect(at(struck, ["readings", 1])).toEqual({ ...tape, struck: true, note: "the tape hung on a bolt" });
    expect(did(struck, c.strikeReading(["readings"], 1, false)).readings).toEqual(two.readings);
    expect(c.strikeReading(["readings"], 7, true).edit(two)).toMatchObject({ ok: false });
  });
});

describe("a size that is read again", () => {
  it("stays where it is, struck through with the reason; the new one goes behind the last, in one step", () => {
    const path = ["made", "hoop", "bent"];
    const angle = (a: number) => ({ what: "angle", bend: 1, angle: a });
    const leg = { what: "leg", end: "A", size: "26 7/16 in" };
    const two = did(frame(), c.addReading(path, angle(91.2), "read"), c.addReading(path, leg, "read"));
    const again = did(two, c.readAgain(path, 0, angle(90), { why: "read again", name: "read" }));
    expect(at(again, path)).toEqual([{ ...angle(91.2), struck: true, note: "read again" }, leg, angle(90)]);
    expect(c.readAgain(path, 5, angle(90), { why: "", name: "" }).edit(two)).toMatchObject({ ok: false });
  });
});

describe("a bar as built", () => {
  const kept = did(
    frame(),
    c.addReading(
      ["made", "hoop", "tacked"],
      { what: "height", of: { bar: "hoop", along: 1442 }, size: 923.5 },
      "read",
    ),
    c.keepAsBuilt({ hoop: { ...built, over: { A: 3.25, B: -1 } } }, "keep"),
    c.addReading(["made", "cross", "bent"], { what: "angle", bend: 1, angle: 44 }, "read"),
  );
  it("is kept, and read back in millimetres", () => {
    const read = readJob(kept);
    expect(read.ok && read.job.asBuilt).toMatchObject({ hoop: { over: { A: 3.25, B: 0 } } });
    expect(read.ok && read.job.made).toMatchObject({
      hoop: { tacked: [{ what: "height", over: "outside", size: 923.5 }] },
    });
    const renewed = did(kept, c.forgetAsBuilt("hoop", "forget"));
    expect(renewed.asBuilt).toBeUndefined();
    expect(at(renewed, ["made", "hoop", "tacked"])).toHaveLength(1);
  });

  it("takes its new name along, and goes with its bar", () => {
    const named = did(kept, c.renameThing("bar", "hoop", "arch"));
    expect(at(named, ["made", "arch", "tacked", 0, "of", "bar"])).toBe("arch");
    expect(at(named, ["asBuilt", "arch", "path"])).toHaveLength(4);
    expect(at(named, ["asBuilt", "hoop"])).toBeUndefined();
    const gone = did(kept, c.deleteBar("cross"));
    expect(at(gone, ["made", "cross"])).toBeUndefined();
    expect(at(gone, ["made", "hoop"])).toBeDefined();
  });

  it("takes the card issued for it along too", () => {
    const card = { n: 2, code: "4dce", on: "2026-11-29" };
    const issued = { ...kept, cards: { hoop: card, cross: { ...card, n: 1 } } };
    expect(did(issued, c.renameThing("bar", "hoop", "arch")).cards).toEqual({
      arch: card,
      cross: { ...card, n: 1 },
    });
    const gone = did(issued, c.deleteBar("cross"));
    expect(gone.cards).toEqual({ hoop: card });
    expect(did(gone, c.deleteBar("hoop", "delete")).cards).toBeUndefined();
  });
});
