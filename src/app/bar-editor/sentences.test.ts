import { describe, expect, it } from "vitest";
import { readJob } from "../../core/job/index.ts";
import { mmOf } from "../kit/entered.ts";
import { standsIn } from "../model/compute/index.ts";
import {
  at,
  type Command,
  entries,
  type JobDocument,
  type Json,
  moveBar,
  setValue,
  thingsOf,
} from "../model/document/index.ts";
import { demo, frame } from "../model/document/testing.ts";
import { movedBetween } from "../model/state/moved.ts";
import { type Before, type KINDS, kindOf, saidPlace, waysFor } from "./kinds/index.ts";
import { addCorner, removeCorner, setCrowd, setNode } from "./nodes.ts";
import { optionsFor } from "./options.ts";
import type { Sentence } from "./parts.ts";
import { sentencesOf } from "./sentences.ts";
import { resultsOf } from "./testing.ts";

/** A node placed in one of the ways that are offered. */
function nodeAs(way: string, what: string, before: Before): Json {
  const found = [...waysFor("A"), ...waysFor("corner")].find(({ id }) => id === way);
  return found?.make(what, before) ?? expect.fail(`no way ${way}`);
}

const says = ({ parts }: Sentence): string =>
  parts
    .map((p) =>
      p.kind === "words"
        ? p.words
        : p.kind === "choice"
          ? `[${p.says}]`
          : `[${Math.abs(mmOf(p.value) ?? Number.NaN)}${p.sides ? ` ${p.sides[(mmOf(p.value) ?? 0) < 0 ? 1 : 0]}` : ""}]`,
    )
    .filter((w) => w !== "")
    .join(" ");

function did(document: JobDocument, command: Command): JobDocument {
  const edit = command.edit(document);
  if (!edit.ok) throw new Error(edit.lines.join("\n"));
  const read = readJob(edit.document);
  if (!read.ok) throw new Error(JSON.stringify(read.problems));
  return edit.document;
}

describe("a bar in sentences", () => {
  it("says ends, corners, host, height and side as a fabricator would", () => {
    const document = frame();
    expect(sentencesOf(document, "cross").map(says)).toEqual([
      "Tube [light] die [none]",
      "End A lands on [Main hoop] [left] [620 up]",
      "End B lands on [Main hoop] [right] [620 up]",
      expect.stringContaining("Allowance at end A"),
    ]);
    expect(sentencesOf(document, "stay-r").map(says)[0]).toMatch(
      /^mirrors \[Rear stay.*\] across the centre plane: change Rear stay, and this bar follows$/,
    );
    expect(sentencesOf(document, "hoop").map(says)).toContain("Corner 2 [0 forward] [600 right] [900 up]");
    expect(sentencesOf(document, "hoop").map(says)[1]).toBe("End A stands on plate [foot-l]");
  });

  it("every value of every bar of the demo is edited where it stands", () => {
    const document = demo();
    let values = 0;
    for (const [id] of entries(thingsOf(document, "bar")))
      for (const { parts } of sentencesOf(document, id))
        for (const part of parts) {
          if (part.kind === "length" && part.value !== undefined) {
            expect(at(document, part.path)).toBe(part.value);
            values++;
          }
          if (part.kind === "choice" && part.value !== "" && part.what !== "end")
            expect(at(document, part.path)).toBe(part.value);
        }
    expect(values).toBeGreaterThan(60);
  });

  it("has a sentence for every kind of node, and offers every way of placing one", () => {
    const nodes: Readonly<Record<keyof typeof KINDS, Json>> = {
      at: [1, 2, 3],
      step: { step: [1, 2, 3] },
      point: { point: "shoulder", by: [1, 2, 3] },
      plate: { plate: "foot-l" },
      along: { on: "hoop", along: 3, off: [0, 0, 4] },
      plane: { on: "hoop", z: 620, near: "left", also: ["stay-l"] },
      toward: { on: "hoop", toward: { on: "stay-l", along: 9 } },
    };
    const said = Object.entries(nodes).map(([kind, node]) => {
      expect(kindOf(node)).toBe(kind);
      const document = did(frame(), setValue(["points", "shoulder"], [-150, 0, 620]));
      const path = ["bars", "cross", "path", 0];
      return sentencesOf(
        { ...document, bars: { ...thingsOf(document, "bar"), cross: { path: [node, [0, 0, 0]] } } },
        "cross",
      )
        .slice(1, -2)
        .map((s) => [
          says(s),
          s.parts.every((p) => p.kind === "words" || path.every((x, i) => p.path[i] === x)),
        ]);
    });
    expect(said).toEqual([
      [["End A at [1 forward] [2 left] [3 up]", true]],
      [["End A from the one before: [1 forward] [2 left] [3 up]", true]],
      [["End A at point [Shoulder] and from there [1 forward] [2 left] [3 up]", true]],
      [["End A stands on plate [foot-l]", true]],
      [["End A lands on [Main hoop] [3 from its end A] moved off it [0 forward] [0 left] [4 up]", true]],
      [
        ["End A lands on [Main hoop] [left] [620 up]", true],
        ["End A is also notched to fit [Rear stay]", true],
      ],
      [["End A lands on [Main hoop] at its place nearest a landing on Rear stay", true]],
    ]);
    expect(waysFor("A").map(({ id }) => id)).toEqual([
      "height",
      "forward",
      "left",
      "height near",
      "along",
      "plate",
      "place",
      "point",
      "toward",
    ]);
    expect(waysFor("corner").map(({ id }) => id)).toEqual(["place", "point", "step"]);
    expect(kindOf({ near: "left" })).toBeUndefined();
  });

  it("knows nothing of a bar that is not there", () => {
    expect(sentencesOf(demo(), "no-such")).toEqual([]);
    expect(sentencesOf(demo(), "constructor")).toEqual([]);
  });

  it("never offers a bar to land on itself, nor a mirror as an original", () => {
    const document = demo();
    expect(optionsFor(document, "host", "main-hoop").map(([id]) => id)).not.toContain("main-hoop");
    expect(optionsFor(document, "original", "sill-bar-right").map(([id]) => id)).not.toContain(
      "rear-stay-right",
    );
  });
});

describe("an end placed another way", () => {
  it("stays where it was, to the millimetre that is put in for typing over", () => {
    const document = demo();
    const results = resultsOf(document);
    const stands = standsIn({ byId: results.bars }, "harness-bar")!;
    const before = { place: stands.corners[0]!, along: stands.ends.A.on!.along };
    for (const kind of ["along", "height"] as const) {
      const next = did(document, setNode(document, "harness-bar", 0, nodeAs(kind, "main-hoop", before)));
      const now = standsIn({ byId: resultsOf(next).bars }, "harness-bar")!;
      expect(Math.hypot(...now.corners[0]!.map((x, k) => x - before.place[k]!))).toBeLessThan(1);
    }
    const free = did(document, setNode(document, "harness-bar", 0, nodeAs("place", "", before)));
    const place = standsIn({ byId: resultsOf(free).bars }, "harness-bar")!.corners[0]!;
    expect(Math.hypot(...place.map((x, k) => x - before.place[k]!))).toBeLessThan(1);
  });

  it("says where it is before anything is computed, where it names a place, a plate or a point", () => {
    const document = frame();
    expect(saidPlace(document, [1, "2 in", "3 mm"])).toEqual([1, 50.8, 3]);
    expect(saidPlace(document, { at: [4, 5, 6] })).toEqual([4, 5, 6]);
    expect(saidPlace(document, { plate: "foot-r" })).toEqual([0, -600, 0]);
    expect(saidPlace(document, { point: "shoulder", by: [1, 2, 3] })).toEqual([-149, 2, 623]);
    expect(saidPlace(document, { on: "hoop", along: 3 })).toBeUndefined();
    expect(saidPlace(document, { plate: "no-such" })).toBeUndefined();
  });

  it("a step starts from the corner before", () => {
    expect(nodeAs("step", "", { place: [10.2, -5, 0], previous: [4, 4, 4] })).toEqual({ step: [6, -9, -4] });
  });

  it("corners come and go, ends are coped to others and lose that again", () => {
    const document = demo();
    const more = did(document, addCorner(document, "pillar-bar-left", 1, [400, 500, 1080]));
    expect(at(more, ["bars", "pillar-bar-left", "path", 2])).toEqual([400, 500, 1080]);
    expect(did(more, removeCorner(more, "pillar-bar-left", 2))).toEqual(document);
    const crowded = did(document, setCrowd(document, "header-bar", 0, ["main-hoop"]));
    expect(at(crowded, ["bars", "header-bar", "path", 0, "also"])).toEqual(["main-hoop"]);
    expect(did(crowded, setCrowd(crowded, "header-bar", 0, []))).toEqual(document);
  });
});

describe("what an edit moved", () => {
  const document = demo();
  it("is every bar whose results differ, blanks before and after", () => {
    const next = did(document, setValue(["bars", "main-hoop", "path", 2, 2], 1095, "hoop up"));
    const [before, after] = [resultsOf(document), resultsOf(next)];
    const moved = movedBetween(before, after);
    expect(moved.map((m) => m.id)).toContain("main-hoop");
    for (const m of moved) {
      expect(m.before).toBe(before.bars.get(m.id)!.bend.blank);
      if (m.how === "without") {
        expect(after.without.map((w) => w.id)).toContain(m.id);
        continue;
      }
      expect(m.after).toBe(after.bars.get(m.id)!.bend.blank);
      expect(m.how === "changed").toBe(Math.abs(m.before! - m.after!) >= 0.005);
    }
  });

  it("tells bars whose cards are as before from those whose marks or ends are others", () => {
    const before = resultsOf(document);
    const after = resultsOf(did(document, moveBar("main-hoop", [10, 0, 0], "move")));
    const how = Object.fromEntries(movedBetween(before, after).map((m) => [m.id, m.how]));
    // the hoop as it was, elsewhere; the harness bar from side to side of it with it
    expect(how["main-hoop"]).toBe("stands");
    expect(how["harness-bar"]).toBe("stands");
    expect(how["rear-stay-left"]).toBe("changed");
    const turned = { ...before, bars: new Map(before.bars) };
    const bar = before.bars.get("dash-bar")!;
    const outer = bar.copes.A.outer.map((x, i) => (i === 40 ? x + 0.2 : x));
    turned.bars.set("dash-bar", { ...bar, copes: { ...bar.copes, A: { ...bar.copes.A, outer } } });
    expect(movedBetween(before, turned)).toMatchObject([{ id: "dash-bar", how: "ends" }]);
  });

  it("is nothing where a bar only got on in the shop", () => {
    const computer = resultsOf(document, did(document, setValue(["bars", "main-hoop", "progress"], "bent")));
    const first = resultsOf(document);
    const progressed = {
      ...first,
      bars: new Map(
        [...first.bars].map(([id, b]) => [id, id === "main-hoop" ? { ...b, progress: "bent" as const } : b]),
      ),
    };
    expect(movedBetween(first, progressed)).toEqual([]);
    expect(computer.bars.get("main-hoop")!.progress).toBe("bent");
  });

  it("names bars that came, went, or lost their place", () => {
    const all = resultsOf(document);
    const fewer = { ...all, bars: new Map([...all.bars].filter(([id]) => id !== "dash-bar")) };
    expect(movedBetween(all, fewer)).toMatchObject([{ id: "dash-bar", how: "gone" }]);
    expect(movedBetween(fewer, all)).toMatchObject([{ id: "dash-bar", how: "new" }]);
    const lost = { ...fewer, without: [{ id: "dash-bar", label: "Dash bar", findings: [] }] };
    expect(movedBetween(all, lost)).toMatchObject([{ id: "dash-bar", label: "Dash bar", how: "without" }]);
  });
});
