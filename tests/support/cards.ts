import { readFileSync } from "node:fs";
import { join } from "node:path";
import { type Job, readJob } from "../../src/core/job/index.ts";
import { type Plan, planJob } from "../../src/core/plan/index.ts";
import type { Drawing, Primitive } from "../../src/draw/index.ts";
import { record } from "../../src/draw/sinks/record.ts";

/** A job as the cards' tests want it; the unit of display may be another than the file's. */
export function planOf(input: unknown, length: "mm" | "in" = "mm"): Plan {
  const read = readJob(input);
  if (!read.ok) throw new Error(read.problems.map((p) => JSON.stringify(p)).join("\n"));
  const job: Job = { ...read.job, show: { length, fraction: 16 } };
  return planJob(job);
}

export const demo = (length: "mm" | "in" = "mm"): Plan =>
  planOf(readFileSync(join(import.meta.dirname, "../../demo/sandling.json"), "utf8"), length);

/** Ends that the demo has not: crowded, off centre, partly missing, fed from B, dies with and without tests, large tube. */
export const HARD = {
  format: "tubewright job",
  version: 2,
  name: "Hard ends",
  tubes: {
    t45: { od: 45, wall: 2.5 },
    t40: { od: 40, wall: 2 },
    t60: { od: 60, wall: 3 },
    t100: { od: 101.6, wall: 3.2 },
  },
  dies: {
    plain: { od: 40, clr: 120 },
    tested: {
      od: 40,
      clr: 120,
      tests: [
        { set: 30, got: 27.6 },
        { set: 90, got: 86.1 },
      ],
    },
  },
  notcher: { saws: [45, 40, 60, 101.6], steepest: 60 },
  plates: { floor: { at: [1300, 900, 0], normal: [0, 0, 1] } },
  bars: {
    post: {
      label: "Post",
      tube: "t45",
      path: [
        [0, 0, 0],
        [0, 0, 1000],
      ],
    },
    diag: { label: "Diagonal", tube: "t40", path: [{ on: "post", along: 500 }, [600, 0, 1000]] },
    crowded: {
      label: "Crowded bar with a label as long as a label may be, to the e",
      tube: "t40",
      path: [{ on: "post", along: 500, also: ["diag"] }, [700, 200, 560]],
    },
    eccentric: {
      label: "Off centre",
      tube: "t40",
      path: [{ on: "post", along: 300, off: [0, 15, 0] }, [700, 15, 300]],
    },
    misses: {
      label: "Partly past",
      tube: "t40",
      path: [{ on: "post", along: 250, off: [0, 30, 0] }, [700, 30, 300]],
    },
    fromB: {
      label: "Fed from B",
      tube: "t40",
      die: "plain",
      fromEnd: "B",
      path: [
        [1000, 0, 0],
        [1000, 0, 400],
        [1000, 600, 500],
        [1300, 600, 100],
      ],
    },
    tested: {
      label: "Two bends",
      tube: "t40",
      die: "tested",
      trim: { A: 25, B: 10 },
      path: [
        [1000, 0, 800],
        [1000, 0, 1400],
        [1300, 600, 1500],
        [1600, 600, 1100],
      ],
    },
    wide: {
      label: "Large",
      tube: "t100",
      path: [
        [2000, 0, 0],
        [2000, 0, 1000],
      ],
    },
    "wide/onto:wide": {
      label: "Large onto large",
      tube: "t100",
      path: [{ on: "wide", along: 700 }, [2600, -300, 200]],
    },
    sixty: { label: "Sixty", tube: "t60", path: [{ on: "wide", along: 500 }, [2600, 300, 800]] },
    swept: {
      label: "Bent in its joint",
      tube: "t40",
      die: "plain",
      path: [{ on: "post", along: 850 }, [80, 0, 850], [300, 330, 900], [300, 800, 700]],
    },
    leg: { label: "Leg", tube: "t40", path: [{ on: "diag", along: 400 }, { plate: "floor" }] },
  },
} as const;

/** Every line of lettering on a sheet. */
export const lettering = (drawing: Pick<Drawing, "marks">): string[] =>
  record(drawing).flatMap((mark: Primitive) =>
    mark.kind === "text" ? [mark.text.replaceAll("\u00a0", " ")] : [],
  );

/** All lettering as one run of words. */
export const said = (sheets: readonly Pick<Drawing, "marks">[]): string =>
  sheets.flatMap(lettering).join(" ");
