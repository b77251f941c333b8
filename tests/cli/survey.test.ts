import { describe, expect, it } from "vitest";
import { run } from "./run.ts";

/** Three places given, a fourth taped from all three and its height read; the tape from `a` reads 20 too long. */
const job = (slip: number): string => {
  const known: Record<string, readonly [number, number, number]> = {
    a: [0, 0, 0],
    b: [2000, 0, 0],
    c: [0, 1500, 0],
    d: [2000, 1500, 100],
  };
  const p = [700, 600, 900] as const;
  const tape = (id: string, off = 0) => ({
    tape: [id, "p"],
    length: Math.hypot(...known[id]!.map((v, i) => v - p[i]!)) + off,
  });
  return JSON.stringify({
    format: "tubewright job",
    version: 2,
    points: { ...known, p: {} },
    readings: [tape("a", slip), tape("b"), tape("c"), tape("d"), { height: "p", z: 900 }],
  });
};

describe("tubewright survey", () => {
  it("gives the keys that are promised, and the place", async () => {
    const { code, out } = await run(["survey", "j", "--json"], { j: job(0) });
    expect(code).toBe(0);
    const answer = JSON.parse(out) as Record<string, unknown> & {
      points: { p: { at: number[]; sd: number[] } };
    };
    answer.points.p.at.forEach((v, i) => {
      expect(v).toBeCloseTo([700, 600, 900][i]!, 3);
    });
    for (const key of ["sigma0", "freedom", "readings", "suspects", "undetermined", "cleaned"])
      expect(answer).toHaveProperty(key);
    expect(answer.suspects).toEqual([]);
    expect(answer.freedom).toBe(2);
  });

  it("takes off what of the tape was held at its first end, in either unit, and reads back what was read", async () => {
    const doc = JSON.parse(job(0)) as { readings: { length?: number | string; mark?: number | string }[] };
    const lengths = doc.readings.map((r) => r.length as number);
    doc.readings[0] = { ...doc.readings[0], length: lengths[0]! + 100, mark: 100 };
    doc.readings[1] = { ...doc.readings[1], length: lengths[1]! + 25.4, mark: "1 in" };
    const text = JSON.stringify(doc);
    const { code, out } = await run(["survey", "j", "--json"], { j: text });
    expect(code).toBe(0);
    const { points } = JSON.parse(out) as { points: { p: { at: number[] } } };
    [700, 600, 900].forEach((v, i) => {
      expect(points.p.at[i]).toBeCloseTo(v, 3);
    });
    const said = (await run(["survey", "j"], { j: text })).out;
    expect(said).toContain(
      `0: the tape from a to p (held at its 100.0 mm mark) reads ${(lengths[0]! + 100).toFixed(1)} mm`,
    );

    // forgotten, the mark is an error of 100 that is found and named
    const without = JSON.stringify({
      ...doc,
      readings: doc.readings.map((r) => ({ ...r, mark: undefined })),
    });
    expect((await run(["survey", "j"], { j: without })).out).toMatch(
      /0: the tape from a to p .* <- does not/,
    );
  });

  it("refuses a tape that was held beyond what it reads, and names the place", async () => {
    const doc = JSON.parse(job(0)) as { readings: object[] };
    doc.readings[0] = { ...doc.readings[0], length: 90, mark: "4 in" };
    const { code, err } = await run(["survey", "j"], { j: JSON.stringify(doc) });
    expect(code).toBe(2);
    expect(err).toMatch(
      /readings\[0\]\.mark: must be less than the length read: 101\.6 mm was held, 90 mm read/,
    );
  });

  it("names the blunder in words, by its number", async () => {
    const { out, err } = await run(["survey", "j"], { j: job(40) });
    expect(out).toMatch(/0: the tape from a to p reads .* <- does not fit/);
    expect(err).toContain("the tape from a to p");
  });

  it("gives the places without the readings that do not fit", async () => {
    const height = { height: "p", z: 900 };
    const doc = JSON.parse(job(40)) as { readings: object[] };
    doc.readings.push(height, { out: "p", y: 600 });
    const { out } = await run(["survey", "j"], { j: JSON.stringify(doc) });
    expect(out).toMatch(/a +0\.0 mm +0\.0 mm +0\.0 mm +exact/);
    expect(out).toMatch(/without 0 these places become:\n +p +700\.0 mm +600\.0 mm +900\.0 mm/);
  });

  it("bars on measured points: those on one that is free have no geometry, the others are answered", async () => {
    const doc = JSON.parse(job(0)) as { points: Record<string, object>; readings: object[] };
    const bars = {
      up: { tube: "t", path: [{ point: "a" }, { point: "p" }] },
      free: { tube: "t", path: [{ point: "a" }, { point: "q" }] },
    };
    const tubes = { t: { od: 40, wall: 2 } };
    const text = JSON.stringify({ ...doc, tubes, points: { ...doc.points, q: {} }, bars });
    const { code, out, err } = await run(["bend", "j", "--json"], { j: text });
    expect(code).toBe(1);
    const { bars: answered } = JSON.parse(out) as { bars: { id: string; length: number }[] };
    expect(answered.map((b) => b.id)).toEqual(["up"]);
    expect(answered[0]!.length).toBeCloseTo(Math.hypot(700, 600, 900), 3);
    expect(err).toBe(
      "error: bars.free.path[1].point: take readings of point q or give it a place (at): it has none yet. tubewright survey lists the readings that place it\n",
    );
  });

  it("a job without readings says so", async () => {
    const empty = JSON.stringify({ format: "tubewright job", version: 2 });
    expect((await run(["survey", "j"], { j: empty })).out).toBe("no readings in this job\n");
  });
});
