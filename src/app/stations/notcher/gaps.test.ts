import { describe, expect, it } from "vitest";
import { readJob } from "../../../core/job/index.ts";
import { rad } from "../../../core/numeric/index.ts";
import type { Command, JobDocument } from "../../model/document/index.ts";
import { frame } from "../../model/document/testing.ts";
import { cutMade, gapAt, gapRead, gapsAt, madeOf, readingsOf, sideAt } from "./gaps.ts";

function did(document: JobDocument, ...commands: readonly Command[]): JobDocument {
  const next = commands.reduce((d, command) => {
    const edit = command.edit(d);
    return edit.ok ? edit.document : expect.fail(edit.lines.join());
  }, document);
  expect(readJob(next)).toMatchObject({ ok: true });
  return next;
}

describe("gaps read", () => {
  const cut = { cut: 38, outboard: 1.5 };
  it("are kept as read, with the cut; one read again strikes the one before", () => {
    const next = did(
      frame(),
      gapRead("cross", "A", cut, 0, 0.4, "read"),
      gapRead("cross", "A", cut, 45, "1/32 in", "read"),
      gapRead("cross", "A", cut, 0, 0.2, "read"),
    );
    const at = gapsAt(next, "cross", "A");
    expect(at).toMatchObject(cut);
    expect([gapAt(at, 0), gapAt(at, 45), gapAt(at, 90)]).toEqual([0.2, "1/32 in", undefined]);
    expect(readingsOf(at)[0]).toEqual({ phi: 0, gap: 0.4, struck: true, note: "read again" });
    expect(gapsAt(next, "cross", "B")).toBeUndefined();
  });

  it("of the cut before are struck when the next one is made", () => {
    const next = did(
      frame(),
      gapRead("cross", "A", cut, 0, 0.4, "read"),
      cutMade("cross", "A", { cut: 43 }, "cut"),
      gapRead("cross", "A", { cut: 99 }, 0, 0, "read"),
    );
    const at = gapsAt(next, "cross", "A");
    expect(at?.cut).toBe(43);
    expect(readingsOf(at)).toEqual([
      { phi: 0, gap: 0.4, struck: true, note: "read with the cut at 38°" },
      { phi: 0, gap: 0 },
    ]);
  });

  it("the next cut is counted from the one that the end asks for", () => {
    const asked = { radius: 22.5, notch: rad(45), clock: rad(10), offset: 0, centre: 12 };
    const next = { cut: { ...asked, notch: rad(46.3), clock: rad(12.5), centre: 11.4 } };
    expect(madeOf(next as Parameters<typeof madeOf>[0], asked)).toEqual({
      cut: 46.3,
      roll: 2.5,
      outboard: 0.6,
    });
    expect(madeOf({ cut: asked } as Parameters<typeof madeOf>[0], asked)).toEqual({ cut: 45 });
    expect([0, 45, 180, 200].map((phi) => sideAt(phi, rad(10)))).toEqual(["heel", "", "toe", "toe"]);
  });
});
