import { readFileSync } from "node:fs";
import { describe, expect, it } from "vitest";
import { readJob } from "../job/index.ts";
import { elsewhere, marked, notAsWanted, type Plan, planJob, wouldMove } from "./index.ts";

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

const planOf = (doc: Doc, before?: Plan) => {
  const read = readJob(doc);
  if (!read.ok) throw new Error(JSON.stringify(read.problems));
  return planJob(read.job, before);
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

describe("loose bars that are not what is wanted", () => {
  const edited = (doc: Doc, edit: (doc: Doc) => void): Doc => {
    const next = structuredClone(doc);
    edit(next);
    return next;
  };

  it.each<[string, (doc: Doc) => void]>([
    ["how well the shop reads", (doc) => Object.assign(doc.shop, { errors: { mark: 5, angle: 3, turn: 3 } })],
    ["the gap that the shop accepts", (doc) => Object.assign(doc.shop, { gap: 9 })],
    ["the saws that there are", (doc) => Object.assign(doc.notcher, { saws: [20] })],
  ])("are judged anew after a change of %s", (_, edit) => {
    const doc = JSON.parse(readFileSync("demo/sandling.json", "utf8"));
    const [bent, notched] = ["pillar-bar-left", "harness-bar"];
    doc.bars[bent].progress = "bent";
    doc.bars[notched].progress = "notched";
    doc.made = {
      [bent]: { bent: [{ what: "angle", bend: 2, angle: 40 }] },
      [notched]: { gaps: { A: { cut: 12, read: [0, 90, 180, 270].map((phi) => ({ phi, gap: 1 })) } } },
    };
    const was = planOf(doc);
    const first = notAsWanted(was);
    expect(first.map((v) => v.bar)).toEqual(expect.arrayContaining([bent, notched]));
    const is = edited(doc, edit);
    const anew = notAsWanted(planOf(is));
    expect(anew).not.toEqual(first);
    expect(notAsWanted(planOf(is, was))).toEqual(anew);
  });
});
