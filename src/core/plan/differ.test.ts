import { describe, expect, it } from "vitest";
import { readJob } from "../job/index.ts";
import { elsewhere, marked, planJob, wouldMove } from "./index.ts";

// biome-ignore lint/suspicious/noExplicitAny: a job is edited here as a person edits its file
type Doc = any;

/** A post, and a rail on two points that are measured from the post. */
function measured(): Doc {
  const from = (point: string, along: number, length: number) => ({
    tape: [{ bar: "post", along }, point],
    over: "centre",
    length,
  });
  return {
    format: "tubewright job",
    version: 2,
    tubes: { t: { od: 40, wall: 2 } },
    points: { p: {}, q: {} },
    readings: [
      from("p", 400, 500),
      { out: "p", y: 0 },
      { height: "p", z: 400 },
      from("q", 400, 900),
      { out: "q", y: 0 },
      { height: "q", z: 400 },
    ],
    bars: {
      post: {
        tube: "t",
        path: [
          [0, 0, 0],
          [0, 0, 800],
        ],
      },
      rail: { tube: "t", path: [{ point: "p" }, { point: "q" }] },
    },
  };
}

const planOf = (doc: Doc) => {
  const read = readJob(doc);
  if (!read.ok) throw new Error(JSON.stringify(read.problems));
  return planJob(read.job);
};

/** The post tacked 10 mm from where it is wanted, and the rail on the points measured from it there. */
function tacked(): Doc {
  const doc = measured();
  doc.bars.post.progress = "tacked";
  doc.made = {
    post: {
      to: {
        tacked: {
          path: [
            [10, 0, 0],
            [10, 0, 800],
          ],
        },
      },
    },
  };
  const there = marked(planOf(doc), "rail", "tacked");
  if (!there) throw new Error("the rail has no place");
  doc.bars.rail.progress = "tacked";
  doc.made.rail = JSON.parse(JSON.stringify({ to: there.to }));
  return doc;
}

describe("bars fast in the car", () => {
  it("are elsewhere where they are not where the plan has them; points that were measured stay", () => {
    const found = elsewhere(planOf(tacked()));
    expect(found.map((f) => f.bar)).toEqual(["post"]);
    expect(found[0]?.wanted[1]).toEqual([0, 0, 800]);
  });

  it("would move with the edit that wants them elsewhere, not because they are elsewhere already", () => {
    const was = tacked();
    const is = structuredClone(was);
    expect(wouldMove(planOf(was), planOf(is))).toEqual([]);
    is.bars.post.path[1][0] = 3;
    expect(wouldMove(planOf(was), planOf(is))).toEqual(["post"]);
  });
});
