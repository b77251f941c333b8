import { describe, expect, it } from "vitest";
import { readJob } from "../../../../core/job/index.ts";
import { planJob } from "../../../../core/plan/index.ts";
import { at, type JobDocument, type Json } from "../../../../shared/index.ts";
import { standsIn } from "../../compute/stands.ts";
import type { Command } from "../command.ts";
import { idFrom, otherSide } from "../names.ts";
import { demo, frame } from "../testing.ts";
import { withDependents } from "./bars.ts";
import * as c from "./index.ts";
import { changeThing } from "./things.ts";

function did(document: JobDocument, ...commands: readonly Command[]): JobDocument {
  let next = document;
  for (const command of commands) {
    const edit = command.edit(next);
    if (!edit.ok) throw new Error(edit.lines.join("\n"));
    next = edit.document;
  }
  const read = readJob(next);
  expect(read.ok ? [] : read.problems).toEqual([]);
  return next;
}

function refusal(document: JobDocument, command: Command) {
  const edit = command.edit(document);
  if (edit.ok) throw new Error("was not refused");
  return edit;
}

const planOf = (document: JobDocument) => {
  const read = readJob(document);
  if (!read.ok) throw new Error(JSON.stringify(read.problems));
  return planJob(read.job);
};
const bars = (d: JobDocument) => Object.keys(d.bars as object);

describe("setting a key", () => {
  it("keeps what was typed, makes what is missing, and takes out", () => {
    const set = did(
      frame(),
      c.setValue(["shop", "errors", "tape"], "1/16 in"),
      c.setValue(["name"], undefined),
    );
    expect(set.shop).toEqual({ errors: { tape: "1/16 in" } });
    expect(Object.hasOwn(set, "name")).toBe(false);
  });

  it("reaches into paths, behind their end, and keeps the order of keys", () => {
    const bar: readonly (string | number)[] = ["bars", "hoop"];
    const set = did(
      frame(),
      c.setValue([...bar, "path", 1, 2], "900 mm"),
      c.setValue([...bar, "tube"], "main"),
      c.setValue([...bar, "label"], "Hoop"),
    );
    expect(at(set, [...bar, "path", 1])).toEqual([0, 600, "900 mm"]);
    expect(Object.keys(at(set, bar) as object)).toEqual(["label", "tube", "die", "path"]);
    const longer = did(
      set,
      c.setValue([...bar, "path", 1], undefined),
      c.setValue([...bar, "path", 2, "plate"], "foot-r"),
    );
    expect(at(longer, [...bar, "path"])).toHaveLength(3);
  });

  it("says where there is no such place", () => {
    expect(refusal(frame(), c.setValue(["points", "shoulder", "sd"], 1)).lines).toEqual([
      "points.shoulder: no object is here, and it has no sd",
    ]);
    expect(refusal(frame(), c.setValue(["bars", "hoop", "path", 9], 1)).lines).toEqual([
      "bars.hoop.path: the list has 4 entries; there is no place 9 in it",
    ]);
    expect(refusal(frame(), c.setValue(["bars", 0], 1)).lines).toEqual([
      "bars: no list is here, and it has no entry 0",
    ]);
  });

  it("names the job and picks the units", () => {
    const set = did(frame(), c.nameJob("Other"), c.showUnits("in", 32));
    expect([set.name, set.show]).toEqual(["Other", { length: "in", fraction: 32 }]);
  });
});

describe("tubes, dies, plates, points", () => {
  it("are added, changed, renamed with all that names them, and deleted", () => {
    const set = did(
      demo(),
      c.addThing("tube", "50x3", { od: 50, wall: "3 mm" }),
      changeThing("tube", "50x3", { stick: 6000, material: undefined }),
      c.renameThing("tube", "40x2", "forty"),
      c.renameThing("plate", "main-hoop-foot-a", "foot"),
      c.addThing("point", "knee", [1, 2, 3]),
      changeThing("point", "knee", [1, 2, "4 mm"]),
      c.deleteThing("tube", "50x3"),
    );
    expect(Object.keys(set.tubes as object)).toEqual(["45x2.5", "forty", "30x2", "25x2", "38x2.5"]);
    expect(JSON.stringify(set)).not.toContain('"40x2"');
    expect(at(set, ["bars", "main-hoop", "path", 0])).toEqual({ plate: "foot" });
    expect(set.points).toEqual({ knee: [1, 2, "4 mm"] });
  });

  it("are not deleted from under the bars that need them", () => {
    const { lines, dependents } = refusal(frame(), c.deleteThing("die", "d45"));
    expect(lines).toEqual(["die d45 is needed: Main hoop uses it"]);
    expect(dependents).toEqual([{ bar: "hoop", how: "use" }]);
    expect(refusal(frame(), c.deleteThing("plate", "foot-l")).lines).toEqual([
      "plate foot-l is needed: Main hoop stands on it",
    ]);
    const racked = {
      ...did(frame(), c.addThing("tube", "x", { od: 20, wall: 2 })),
      rack: [{ tube: "x", pieces: [] }],
    };
    expect(refusal(racked, c.deleteThing("tube", "x")).lines[0]).toMatch(
      /^take tube x out of rack.0.tube first/,
    );
    expect(refusal(frame(), c.deleteThing("die", "d4")).lines).toEqual(['dies: no die is called "d4"']);
  });

  it("do not take each other's names", () => {
    expect(refusal(frame(), c.addThing("tube", "main", {})).ok).toBe(false);
    expect(refusal(frame(), c.renameThing("tube", "light", "main")).ok).toBe(false);
    expect(did(frame(), c.addThing("tube", "constructor", { od: 20, wall: 2 })).tubes).toHaveProperty("main");
  });
});

describe("bars", () => {
  it("are added, changed, duplicated, mirrored, renamed, and say how far they have come", () => {
    const set = did(
      frame(),
      c.addBar("brace", { label: "Brace", tube: "light", path: [{ on: "hoop", along: 600 }, [300, 500, 0]] }),
      c.setProgress("brace", "sawn"),
      c.duplicateBar("brace", "brace-2", "Second brace"),
      c.mirrorBar("brace", "brace-r"),
      c.changeBar("brace", { trim: { A: "1/2 in" }, label: undefined }),
      c.renameThing("bar", "brace", "strut"),
    );
    expect(bars(set)).toEqual(["hoop", "cross", "stay-l", "stay-r", "strut", "brace-2", "brace-r"]);
    expect(at(set, ["bars", "strut"])).toEqual({
      tube: "light",
      path: [{ on: "hoop", along: 600 }, [300, 500, 0]],
      progress: "sawn",
      trim: { A: "1/2 in" },
    });
    expect(at(set, ["bars", "brace-2"])).toMatchObject({ label: "Second brace" });
    expect(at(set, ["bars", "brace-2", "progress"])).toBeUndefined();
    expect(at(set, ["bars", "brace-r"])).toEqual({ mirrorOf: "strut" });
    expect(at(did(set, c.setProgress("strut", "laid out")), ["bars", "strut", "progress"])).toBeUndefined();
  });

  it("are mirrored once, and never as a mirror of a mirror", () => {
    expect(refusal(frame(), c.mirrorBar("stay-r", "x")).lines[0]).toBe(
      "mirror Rear stay instead: Rear stay is its mirror",
    );
    expect(refusal(frame(), c.mirrorBar("stay-l", "x")).lines[0]).toBe(
      "Rear stay has a mirror already: Rear stay",
    );
  });

  it("are renamed wherever they are named: landings, crowds, followers, mirrors, places run toward", () => {
    const crowded: JobDocument = {
      ...frame(),
      bars: {
        ...(frame().bars as { [k: string]: Json }),
        f: {
          tube: "light",
          die: "d38",
          path: [
            [0, 0, 0],
            [0, 0, 500],
          ],
          follow: { bar: "hoop", gap: 9, side: "inside" },
        },
        t: {
          tube: "light",
          path: [{ on: "cross", toward: { on: "hoop", along: 9 }, also: ["hoop"] }, [0, 0, 0]],
        },
      },
    };
    const set = did(crowded, c.renameThing("bar", "hoop", "arch"));
    expect(JSON.stringify(set)).not.toContain('"hoop"');
    expect(JSON.stringify(set).replaceAll('"arch"', '"hoop"')).toBe(JSON.stringify(crowded));
  });
});

describe("deleting a bar", () => {
  it("is refused while others stand on it, and says which and how", () => {
    const { lines, dependents } = refusal(frame(), c.deleteBar("hoop"));
    expect(dependents).toEqual([
      { bar: "cross", how: "on" },
      { bar: "stay-l", how: "on" },
    ]);
    expect(lines).toEqual(["Main hoop is needed: Shoulder bar lands on it, Rear stay lands on it"]);
    expect(refusal(frame(), c.deleteBar("stay-l")).dependents).toEqual([{ bar: "stay-r", how: "mirror" }]);
    expect(bars(did(frame(), c.deleteBar("cross")))).toEqual(["hoop", "stay-l", "stay-r"]);
  });

  it("takes along what stands on it, and what stands on that, when told to", () => {
    expect(withDependents(frame(), "hoop")).toEqual(["hoop", "cross", "stay-l", "stay-r"]);
    const ordered = { ...frame(), order: ["cross", "stay-l", "stay-r", "hoop"] };
    expect(did(ordered, c.deleteBar("stay-l", "delete"))).toMatchObject({ order: ["cross", "hoop"] });
    expect(did({ ...frame(), order: ["cross"] }, c.deleteBar("cross"))).not.toHaveProperty("order");
    expect(bars(did(frame(), c.deleteBar("stay-l", "delete")))).toEqual(["hoop", "cross"]);
  });

  it("knows what lands on a mirrored bar only because its original lands on the twin", () => {
    expect(refusal(demo(), c.deleteBar("door-bar-through-right")).dependents).toEqual([
      { bar: "door-bar-front-upper-half-right", how: "on" },
      { bar: "door-bar-rear-lower-half-right", how: "on" },
    ]);
    const shorter = did(demo(), c.deleteBar("pillar-bar-right", "delete"));
    const plan = planOf(shorter);
    expect(plan.bars.map((b) => b.id)).toEqual(bars(shorter));
  });

  it("lets an end that was coped to it too just lose that", () => {
    const crowded = did(frame(), c.setValue(["bars", "stay-l", "path", 0, "also"], ["cross"]));
    expect(refusal(crowded, c.deleteBar("cross")).lines).toEqual([
      "Shoulder bar is needed: Rear stay is notched to it",
    ]);
    const set = did(crowded, c.deleteBar("cross", "delete"));
    expect(bars(set)).toEqual(["hoop", "stay-l", "stay-r"]);
    expect(at(set, ["bars", "stay-l", "path", 0])).toEqual({ on: "hoop", along: 790 });
  });

  // what was computed before is the outside check of what is written down: every bar left must stand where it stood
  it("leaves what stood on it where it stood, in the demo, whichever bar goes", () => {
    const document = demo();
    const before = planOf(document);
    let checked = 0;
    for (const gone of bars(document)) {
      const left = did(
        document,
        c.deleteBar(gone, "leave", (bar) => standsIn(before, bar)),
      );
      const after = planOf(left);
      for (const id of bars(left)) {
        const [was, is] = [before.byId.get(id)!.bar.centreline, after.byId.get(id)?.bar.centreline];
        const [a, b] = [was, is!].map((l) => [...l.start, ...l.finish, l.length]);
        for (const [i, x] of a!.entries()) expect(Math.abs(x - b![i]!)).toBeLessThan(1e-3);
        for (const end of ["A", "B"] as const) {
          const [own, now] = [before, after].map((plan) => plan.byId.get(id)!.bar.seat[end]);
          const hosts = own!.kind === "on" ? own!.hosts : [];
          const wanted = hosts[0] === gone ? [] : hosts.filter((h) => h !== gone);
          expect(now!.kind === "on" ? now!.hosts : [], `${id} ${end} without ${gone}`).toEqual(wanted);
          if (own!.kind === "plate") expect(now!.kind).toBe("plate");
        }
        checked++;
      }
    }
    expect(checked).toBe(bars(document).length * (bars(document).length - 1));
  });

  it("cannot leave a bar that has no place", () => {
    expect(refusal(frame(), c.deleteBar("hoop", "leave")).lines[0]).toMatch(
      /^mend Shoulder bar first: it has no place/,
    );
  });
});

describe("names", () => {
  it("turn to the other side", () => {
    expect(otherSide("Rear stay, left")).toBe("Rear stay, right");
    expect(otherSide("Right pillar bar")).toBe("Left pillar bar");
    expect(otherSide("stay-l")).toBe("stay-r");
    expect(otherSide("Main hoop")).toBeUndefined();
  });

  it("make IDs", () => {
    expect([idFrom("Rear stay, left"), idFrom("45 × 2.5"), idFrom("—")]).toEqual([
      "rear-stay-left",
      "45-2.5",
      "new",
    ]);
  });
});
