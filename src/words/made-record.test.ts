import { expect, it } from "vitest";
import { writeIn } from "../app/kit/write.ts";
import { bentLines, notchLines, sawnLines, sayChanged } from "./made-record.ts";

const mm = writeIn({ length: "mm", fraction: 16 });
const inch = writeIn({ length: "in", fraction: 16 });
const tube = { od: 40, wall: 2 };

it("what differs is on both sides, with digits enough to show it", () => {
  const sides = (made: number, wanted: number) => ({
    made: { tube, length: made },
    wanted: { tube, length: wanted },
  });
  expect(sawnLines(sides(1200, 1200.04), mm)).toEqual([{ what: "Sawn length", made: "1200.0 mm" }]);
  expect(sawnLines(sides(1200, 1204), mm)).toEqual([
    { what: "Sawn length", made: "1200.0 mm", wanted: "1204.0 mm" },
  ]);
  const [near] = sawnLines(sides(1200.0, 1200.06), inch);
  expect(near!.made).not.toBe(near!.wanted);
  const [, other] = sawnLines(
    { made: { tube, length: 5 }, wanted: { tube: { od: 45, wall: 2 }, length: 5 } },
    mm,
  );
  expect(other).toEqual({ what: "Tube", made: "Ø 40.0 mm × 2.00 mm", wanted: "Ø 45.0 mm × 2.00 mm" });
});

it("bends are in the order of bending, a turn as near as whole turns bring it", () => {
  const bend = (n: number, turn: number) => ({ n, mark: 100 * n, angle: 90, set: 94, turn });
  const side = (turn: number) => ({
    die: { id: "d40", od: 40, clr: 120, mark: 0, arcFactor: 1 },
    fed: "B" as const,
    zero: "bend 1",
    bends: [bend(1, 0), bend(2, turn)],
  });
  const lines = bentLines({ made: side(179.99), wanted: side(-179.99) }, mm);
  expect(lines.map((l) => l.what).filter((w) => w.startsWith("Mark"))).toEqual([
    "Mark of bend 2, from sawn end B",
    "Mark of bend 1, from sawn end B",
  ]);
  expect(lines.every((l) => l.wanted === undefined)).toBe(true);
});

it("an end as notched has the figures of its card, none of them an order", () => {
  const cut = { diameter: 45, angle: 12.5, clock: -90, offset: 2, fromSawn: -1.5 };
  const side = { by: "hole saw" as const, cuts: [cut], finished: 900 };
  const now = { ...side, cuts: [{ ...cut, angle: 14 }] };
  const lines = notchLines("A", { made: side, wanted: now }, mm);
  expect(lines).toContainEqual({ what: "Notch angle, off square", made: "12.5°", wanted: "14.0°" });
  expect(lines).toContainEqual({ what: "Hole centre", made: "1.5 mm beyond sawn end A, off the tube" });
  expect(lines).toContainEqual({ what: "Clock of the heel", made: "90.0° clockwise from the zero line" });
});

it("a tube with another allowance keeps its sawn ends; one that is too short says so", () => {
  const verdict = { bar: "x", step: "sawn", short: 0 } as const;
  expect(sayChanged({ ...verdict, verdict: "saw off", reason: "long" }, { A: 20, B: 31 }, mm)).toBe(
    "Leave the sawn ends as they are: all figures count from them. Allowance now: 20.0 mm at end A, 31.0 mm at end B.",
  );
  expect(
    sayChanged({ ...verdict, verdict: "make again", reason: "short", short: 5 }, undefined, mm),
  ).toContain("5.0 mm too short");
});
