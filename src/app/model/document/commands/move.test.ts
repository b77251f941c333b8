import { describe, expect, it } from "vitest";
import { readJob } from "../../../../core/job/index.ts";
import { type Plan, planJob } from "../../../../core/plan/index.ts";
import { at, entries, type JobDocument } from "../../../../shared/index.ts";
import { thingsOf } from "../names.ts";
import { demo, frame } from "../testing.ts";
import { mirrorBar, moveBar, setValue } from "./index.ts";

function did(document: JobDocument, command: ReturnType<typeof moveBar>): JobDocument {
  const edit = command.edit(document);
  return edit.ok ? edit.document : expect.fail(edit.lines.join("\n"));
}
function planOf(document: JobDocument): Plan {
  const read = readJob(document);
  return planJob(read.ok ? read.job : expect.fail(JSON.stringify(read.problems)));
}

describe("a bar moved as a whole", () => {
  it("moves with its own feet, its length and bends unchanged", () => {
    const [before, after] = [demo(), did(demo(), moveBar("main-hoop", [10, 0, -4.5], "move"))];
    const [was, is] = [before, after].map((d) => planOf(d).byId.get("main-hoop")!);
    expect(is!.bend.blank).toBeCloseTo(was!.bend.blank, 9);
    const corners = [was!, is!].map((b) => b.bar.centreline.bends.map((x) => x.corner));
    corners[0]!.forEach((p, i) => {
      for (const [k, by] of [10, 0, -4.5].entries()) expect(corners[1]![i]![k]! - p[k]!).toBeCloseTo(by, 9);
    });
    expect(at(after, ["plates", "main-hoop-foot-a", "at"])).toEqual([10, 575, 25.5]);
  });

  it("back again, every demo bar that can be moved stands where it stood", () => {
    let moved = 0;
    for (const [id] of entries(thingsOf(demo(), "bar"))) {
      const edit = moveBar(id, [7, -3, 2], "there").edit(demo());
      if (!edit.ok) {
        expect(edit.lines[0]).toMatch(/is its mirror|is on other bars or on plates/);
        continue;
      }
      moved++;
      expect(did(edit.document, moveBar(id, [-7, 3, -2], "back"))).toEqual(demo());
    }
    expect(moved).toBeGreaterThan(5);
  });

  it("leaves what it does not touch as typed, and says a moved figure in millimetres", () => {
    const typed = did(frame(), setValue(["bars", "stay-l", "path", 1], ["-35 7/16 in", "20 1/2 in", 300]));
    const after = did(typed, moveBar("stay-l", [10, 0, 0], "move"));
    expect(at(after, ["bars", "stay-l", "path", 1])).toEqual([-890.1125, "20 1/2 in", 300]);
    expect(at(after, ["bars", "stay-l", "path", 0])).toEqual(at(typed, ["bars", "stay-l", "path", 0]));
  });

  it("moves a point's offset and not the point, a step by the corner before, and a shared plate not at all", () => {
    const path = [{ point: "shoulder" }, { step: [0, 300, 0] }, { plate: "foot-l" }];
    const document = did(frame(), setValue(["bars", "stay-l", "path"], path));
    expect(at(did(document, moveBar("stay-l", [1, 2, 3], "move")), ["bars", "stay-l", "path"])).toEqual([
      { point: "shoulder", by: [1, 2, 3] },
      { step: [0, 300, 0] },
      { plate: "foot-l" },
    ]);
  });

  it("is refused for a mirror, for one that only lands on others, and for none", () => {
    const mirrored = did(frame(), mirrorBar("cross", "other"));
    for (const [id, why] of [
      ["other", /^move Shoulder bar, and other follows: other is its mirror/],
      ["cross", /^move its hosts/],
      ["no-such", /no bar is called/],
    ] as const) {
      const edit = moveBar(id, [1, 0, 0], "move").edit(mirrored);
      expect(edit.ok ? "" : edit.lines[0]).toMatch(why);
    }
  });
});
