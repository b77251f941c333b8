import { at, issueCards, keepAsBuilt, markMade, throwAway } from "../../src/app/model/document/index.ts";
import { readJob } from "../../src/core/job/index.ts";
import {
  cardOf,
  type Mark,
  marked,
  type NotchMethod,
  type Plan,
  planJob,
} from "../../src/core/plan/index.ts";
import { readBar } from "./of-readings.ts";
import type { JobDocument, Steps } from "./steps.ts";

const plate = (y: number) => ({
  at: [0, y, 0],
  normal: [0, 0, 1],
  thickness: 3,
  size: [120, 100],
  along: [1, 0, 0],
});

/** A hoop on two plates, two bars across it, and one between those: each end is cut in another way. */
export const FRAME: JobDocument = {
  format: "tubewright job",
  version: 2,
  name: "Made",
  tubes: {
    main: { od: 45, wall: 2.5, material: "steel" },
    light: { od: 38, wall: 2, material: "steel" },
  },
  dies: { d45: { od: 45, clr: 135, mark: 4, arcFactor: 1.01, springback: { k: 0.97, c: -1.5 } } },
  plates: { "foot-l": plate(600), "foot-r": plate(-600) },
  notcher: { saws: [45, 38] },
  bars: {
    hoop: {
      tube: "main",
      die: "d45",
      path: [{ plate: "foot-l" }, [0, 600, 900], [0, -600, 900], { plate: "foot-r" }],
    },
    low: {
      tube: "light",
      path: [
        { on: "hoop", z: 300, near: "left" },
        { on: "hoop", z: 300, near: "right" },
      ],
    },
    high: {
      tube: "light",
      path: [
        { on: "hoop", z: 650, near: "left" },
        { on: "hoop", z: 650, near: "right" },
      ],
    },
    strut: {
      tube: "light",
      // crowded: the curve of each end comes from bars on plates and on other bars
      path: [
        { on: "low", along: 400, also: ["hoop", "high"] },
        { on: "high", along: 500, also: ["hoop", "low"] },
      ],
    },
  },
};

/** Every bar of the frame made step by step, its cards issued, read, kept as built, and thrown away. */
export function makeAll(steps: Steps): void {
  const plan = (): Plan => {
    const read = readJob(steps.document);
    if (!read.ok) throw new Error("a step that was done is a job");
    return planJob(read.job);
  };
  const mark = (bar: string, step: Mark, by?: NotchMethod): void => {
    const done = marked(plan(), bar, step, by);
    const end = typeof step === "object" ? step.notched : undefined;
    if (done) steps.run(markMade(bar, done, end), `${bar} ${JSON.stringify(step)}`);
    else steps.refused.push(`${bar} ${JSON.stringify(step)}: nothing was marked`);
  };
  const bars = Object.keys(steps.document.bars as object);
  const now = plan();
  const issued = Object.fromEntries(
    bars.map((id) => {
      const bar = now.byId.get(id);
      if (!bar) throw new Error(`${id} has a geometry`);
      return [id, cardOf(now, bar).code];
    }),
  );
  steps.run(issueCards(issued, "2026-11-30"), "cards");
  for (const bar of bars) {
    mark(bar, "sawn");
    if (bar === "hoop") mark(bar, "bent");
    for (const end of ["A", "B"] as const)
      mark(bar, { notched: end }, bar === "strut" ? "wrap" : bar === "hoop" ? undefined : "hole saw");
    mark(bar, "fitted");
    mark(bar, "tacked");
    readBar(steps, bar, bar);
  }
  // after all are made: what is kept as built carries whatever is cut to it
  for (const bar of bars) {
    const path = [
      [0, 600, 0],
      [0, -600, 0],
    ] as const;
    steps.run(keepAsBuilt({ [bar]: { path, over: { A: 3, B: 4 } } }, ""), "as built");
  }
  for (const bar of bars)
    if (at(steps.document, ["made", bar])) steps.run(throwAway(bar), `throw away ${bar}`);
}
