import { describe, expect, it } from "vitest";
import {
  height,
  heldAt,
  jobOf,
  lean,
  off,
  out,
  shellOf,
  tape,
  UNKNOWN,
} from "../../../tests/support/survey.ts";
import type { Reading } from "../job/reading-types.ts";
import type { Vec } from "../space/index.ts";
import { expectedOf, readsOf, surveyJob } from "./index.ts";

const marks: Readonly<Record<string, Vec>> = {
  origin: [0, 0, 0],
  ahead: [2000, 0, 0],
  left: [0, 800, 0],
  rear: [-900, -500, 150],
};
const P: Vec = [640, 560, 410];
const far = (id: string, to: Vec = P): number => Math.hypot(...marks[id]!.map((v, i) => v - to[i]!));
const points = { ...shellOf(marks, {}).points, P: UNKNOWN };
const three: readonly Reading[] = [
  tape("origin", "P", far("origin")),
  tape("ahead", "P", far("ahead")),
  height("P", 410),
];
const read = (reading: ReturnType<typeof readsOf>[number]["reading"], value: number): Reading =>
  reading.kind === "tape"
    ? tape(...reading.points, value)
    : { kind: reading.kind, point: reading.point, value };

describe("what to read next at a point", () => {
  const job = jobOf(points, three);
  const survey = surveyJob(job);
  const next = readsOf(job, survey, "P");
  const errorOf = (id: string, of: ReturnType<typeof surveyJob>): number =>
    Math.hypot(...of.points.get(id)!.sd);
  const places = new Map([...survey.points].map(([id, { at }]) => [id, at]));

  it("lessens its error by as much as is said, reading after reading (slow twin: adjusted anew with each)", () => {
    expect(next.length).toBeGreaterThan(2);
    const taken = [...three];
    for (const { reading, before, after } of next) {
      expect(errorOf("P", surveyJob(jobOf(points, taken)))).toBeCloseTo(before, 4);
      const at = expectedOf(read(reading, 1), places, new Map());
      taken.push(read(reading, at!));
      expect(errorOf("P", surveyJob(jobOf(points, taken)))).toBeCloseTo(after, 4);
      expect(after).toBeLessThan(before);
    }
  });

  it("begins with the one that lessens it most (slow twin: every reading tried)", () => {
    const open = [
      ...["left", "rear"].map((id) => ({ kind: "tape", points: [id, "P"] }) as const),
      ...(["out", "fore"] as const).map((kind) => ({ kind, point: "P" })),
    ];
    const tried = open.map((reading) => {
      const value = expectedOf(read(reading, 1), places, new Map());
      return errorOf("P", surveyJob(jobOf(points, [...three, read(reading, value!)])));
    });
    expect(next[0]!.after).toBeCloseTo(Math.min(...tried), 4);
  });

  it("offers no reading twice, and none of a point that is exact or free", () => {
    const said = next.map(({ reading }) => JSON.stringify(reading));
    expect(new Set(said).size).toBe(said.length);
    expect(said.some((s) => s.includes('"height"') || s.includes('["origin","P"]'))).toBe(false);
    expect(readsOf(job, survey, "origin")).toEqual([]);
    const free = jobOf(points, three.slice(0, 1));
    expect(readsOf(free, surveyJob(free), "P")).toEqual([]);
  });
});

describe("what a reading is expected to read", () => {
  const places = new Map(Object.entries({ ...marks, P }));
  it("is the distance, and as much more as of the tape was held", () => {
    const distance = far("ahead");
    expect(expectedOf(tape("ahead", "P", 1), places, new Map())).toBeCloseTo(distance, 9);
    expect(expectedOf(heldAt(100, tape("ahead", "P", 1)), places, new Map())).toBeCloseTo(distance + 100, 9);
    expect(expectedOf(out("P", 0), places, new Map())).toBe(560);
  });
  it("is a height plumb from the floor where the shell leans: 1° up to the front lifts 640 by 11.2", () => {
    const leaning = { along: { angle: 1, sd: 0.2 } };
    const up = 640 * Math.sin(Math.PI / 180) + 410 * Math.cos(Math.PI / 180);
    expect(expectedOf(height("P", 0), places, new Map(), leaning)).toBeCloseTo(up, 9);
    expect(expectedOf(lean("along", 0), places, new Map(), leaning)).toBeCloseTo(1, 9);
  });
  it("is not known where an end has no place", () => {
    expect(expectedOf(tape("ahead", "Q", 1), places, new Map())).toBeUndefined();
    expect(off(P, [640, 560, 410])).toBe(0);
  });
});
