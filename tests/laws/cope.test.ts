import { readFileSync } from "node:fs";
import { describe, expect, it } from "vitest";
import { reversed } from "../../src/core/bar/index.ts";
import { copeOf } from "../../src/core/cope/index.ts";
import { readJob } from "../../src/core/job/index.ts";
import type { ResolvedBar } from "../../src/core/layout/index.ts";
import { rad, seeded } from "../../src/core/numeric/index.ts";
import { hostsOf } from "../../src/core/plan/hosts.ts";
import { type Plan, planJob } from "../../src/core/plan/index.ts";
import { add, turn, unit, type Vec } from "../../src/core/space/index.ts";
import { barOf } from "../bars.ts";

const text = readFileSync("demo/sandling.json", "utf8");
const planOf = (document: unknown): Plan => {
  const read = readJob(document);
  if (!read.ok) throw new Error(JSON.stringify(read.problems));
  return planJob(read.job);
};
const demo = planOf(text);

/** Greatest difference between two curves, NaN in one alone counting as infinite. */
function apart(a: Float64Array, b: Float64Array, index = (i: number): number => i): number {
  let most = 0;
  a.forEach((x, i) => {
    const y = b[index(i)]!;
    if (Number.isNaN(x) && Number.isNaN(y)) return;
    most = Math.max(most, Number.isNaN(x - y) ? Infinity : Math.abs(x - y));
  });
  return most;
}

/** The demo's document with every length passed through one function, and places and directions through others. */
function mapped(
  length: (mm: number) => number | string,
  place: (v: Vec) => readonly (number | string)[],
  dir: (v: Vec) => Vec,
): unknown {
  const doc = JSON.parse(text) as Record<string, Record<string, Record<string, unknown>>>;
  const lengthKeys = new Set([
    "od",
    "wall",
    "stick",
    "clr",
    "clamp",
    "between",
    "tail",
    "along",
    "thickness",
    "size",
  ]);
  const walk = (value: unknown, key: string): unknown => {
    if (Array.isArray(value)) {
      if (key === "normal" || key === "along") return dir(value as unknown as Vec);
      if (value.length === 3 && value.every((x) => typeof x === "number"))
        return place(value as unknown as Vec);
      return value.map((x) => walk(x, key));
    }
    if (typeof value === "object" && value !== null) {
      return Object.fromEntries(Object.entries(value).map(([k, v]) => [k, walk(v, k)]));
    }
    return typeof value === "number" && lengthKeys.has(key) ? length(value) : value;
  };
  const {
    rack: _rack,
    shop: _shop,
    notcher: _notcher,
    body: _body,
    driver: _driver,
    bender: _bender,
    ...rest
  } = doc;
  return walk(rest, "");
}
const same = (v: Vec): Vec => v;

describe("laws of the demo's 72 ends", () => {
  it("the whole car moved, and turned about plumb: no curve, blank, mark or angle changes", () => {
    const spin = (v: Vec): Vec => turn(v, [0, 0, 1], rad(37));
    // Mirrors are about y = 0, so a moved car is told bar by bar: the twins are written out.
    const move = (v: Vec): Vec => add(spin(v), [123, -77, 45]);
    for (const { bar } of demo.bars) {
      const moved = rigid(bar, move, spin);
      for (const end of ["A", "B"] as const) {
        const hosts = hostsOf(bar, end, demo.layout)!.map((h) => rigid(h, move, spin));
        const before = demo.byId.get(bar.id)!.copes[end].cope;
        // A bar that stands plumb faces forward, which the turn moves.
        if (before.zeroLine === "forward") continue;
        const after = copeOf(moved, end, hosts).cope;
        expect(awayFromGrazes(bar, end, before.outer, after.outer)).toBeLessThan(1e-5);
        expect(awayFromGrazes(bar, end, before.bore, after.bore)).toBeLessThan(1e-5);
      }
    }
  });

  it("a twin's curve is its original's read the other way round", () => {
    let twins = 0;
    for (const { bar, copes } of demo.bars) {
      if (bar.mirrorOf === undefined) continue;
      const original = demo.byId.get(bar.mirrorOf)!;
      for (const end of ["A", "B"] as const) {
        twins++;
        const back = (i: number): number => (360 - i) % 360;
        expect(apart(copes[end].cope.bore, original.copes[end].cope.bore, back)).toBeLessThan(1e-4);
      }
    }
    expect(twins).toBe(22);
  });

  it("run from the other end, each end keeps its curve", () => {
    for (const { bar, copes } of demo.bars) {
      const turned: ResolvedBar = {
        ...bar,
        centreline: reversed(bar.centreline),
        seat: { A: bar.seat.B, B: bar.seat.A },
      };
      for (const end of ["A", "B"] as const) {
        const other = end === "A" ? "B" : "A";
        const made = copeOf(turned, other, hostsOf(bar, end, demo.layout)!);
        expect(awayFromGrazes(bar, end, copes[end].cope.outer, made.cope.outer)).toBeLessThan(1e-6);
        expect(Math.abs(made.cope.least - copes[end].cope.least)).toBeLessThan(1e-3);
      }
    }
  });

  it("everything three times as large: curves and blanks three times, angles the same", () => {
    const three = planOf(
      mapped(
        (mm) => 3 * mm,
        (v) => [3 * v[0], 3 * v[1], 3 * v[2]],
        same,
      ),
    );
    for (const b of demo.bars) {
      const big = three.byId.get(b.id)!;
      expect(Math.abs(big.bend.blank - 3 * b.bend.blank - 0)).toBeLessThan(0.02);
      b.bend.bends.forEach((bend, i) => {
        expect(Math.abs(big.bend.bends[i]!.angle - bend.angle)).toBeLessThan(1e-9);
        expect(Math.abs(big.bend.bends[i]!.rotation - bend.rotation)).toBeLessThan(1e-8);
      });
    }
  });

  it("typed in inches as exact text, every number comes out the same to the last digit that matters", () => {
    const inches = (mm: number): string => `${mm / 25.4} in`;
    const typed = planOf(mapped(inches, (v) => v.map(inches), same));
    for (const b of demo.bars) {
      const other = typed.byId.get(b.id)!;
      expect(Math.abs(other.bend.length - b.bend.length)).toBeLessThan(1e-9);
      expect(Math.abs(other.bend.blank - b.bend.blank)).toBeLessThan(1e-3);
    }
  });
});

/** A resolved bar moved rigidly. */
function rigid(bar: ResolvedBar, move: (v: Vec) => Vec, spin: (v: Vec) => Vec): ResolvedBar {
  const pieces = bar.centreline.pieces.map((p) =>
    p.kind === "straight"
      ? { ...p, from: move(p.from), dir: spin(p.dir) }
      : { ...p, centre: move(p.centre), x: spin(p.x), y: spin(p.y), n: spin(p.n) },
  );
  const bends = bar.centreline.bends.map((b, i) => ({
    ...b,
    corner: move(b.corner),
    arc: pieces[2 * i + 1] as typeof b.arc,
  }));
  const seat = (s: ResolvedBar["seat"]["A"]) => {
    if (s.kind === "plate") return { ...s, at: move(s.at), normal: spin(s.normal) };
    return s.kind === "on" ? { ...s, off: spin(s.off) } : s;
  };
  const { start, finish } = bar.centreline;
  return {
    ...bar,
    centreline: { ...bar.centreline, pieces, bends, start: move(start), finish: move(finish) },
    seat: { A: seat(bar.seat.A), B: seat(bar.seat.B) },
  };
}

/** Two right answers may differ where a line grazes: there the distance to the surface counts, not the place. */
function awayFromGrazes(bar: ResolvedBar, end: "A" | "B", a: Float64Array, b: Float64Array): number {
  const equal = hostsOf(bar, end, demo.layout)!.some((h) => Math.abs(h.tube.od - bar.tube.od) < 1e-9);
  if (!equal) return apart(a, b);
  const differences = Array.from(a, (x, i) => Math.abs(x - b[i]!)).sort((x, y) => x - y);
  // With equal diameters a few lines graze on either side.
  return differences[differences.length - 12]!;
}

describe("laws of random joints (seed 21)", () => {
  it("turned any way, a bar with a bend keeps its curve: its zero line goes with it", () => {
    const random = seeded(21);
    for (let k = 0; k < 20; k++) {
      const axis = unit([random() - 0.5, random() - 0.5, random() - 0.5]);
      const angle = 6 * random();
      const spin = (v: Vec): Vec => turn(v, axis, angle);
      const host = barOf("host", 45, 2.5, [
        [-500, 0, 0],
        [0, 0, 0],
        [300, 400, 100],
      ]);
      const bar = barOf(
        "bar",
        38,
        2.5,
        [
          [300 + 100 * random(), 500, 300],
          [-100, 250, 200 * random()],
          [-200, 0, 0],
        ],
        { B: { on: "host", along: 300 } },
      );
      const here = copeOf(bar, "B", [host]).cope;
      const there = copeOf(rigid(bar, spin, spin), "B", [rigid(host, spin, spin)]).cope;
      expect(apart(here.outer, there.outer)).toBeLessThan(1e-7);
      expect(Math.abs(here.least - there.least)).toBeLessThan(1e-6);
    }
  });
});
