import { describe, expect, it } from "vitest";
import { readJob } from "../job/index.ts";
import { changeOf, planJob } from "./index.ts";

// biome-ignore lint/suspicious/noExplicitAny: a job is edited here as a person edits its file
type Doc = any;

/** Two upright posts and a straight tie between them. */
function portal(): Doc {
  const post = (x: number) => ({
    tube: "t",
    path: [
      [x, 0, 0],
      [x, 0, 800],
    ],
  });
  const onPost = (on: string, z: number) => ({ on, z });
  return {
    format: "tubewright job",
    version: 2,
    tubes: { t: { od: 40, wall: 2 } },
    shop: { trim: 10, gap: 1 },
    bars: {
      left: post(0),
      right: post(600),
      tie: { tube: "t", path: [onPost("left", 400), onPost("right", 400)], progress: "sawn" },
    },
  };
}

function jobOf(doc: Doc) {
  const read = readJob(doc);
  if (!read.ok) throw new Error(JSON.stringify(read.problems));
  return read.job;
}

function edited(doc: Doc, edit: (doc: Doc) => void): Doc {
  const copy = structuredClone(doc);
  edit(copy);
  return copy;
}

const noPlace = (doc: Doc): void => {
  doc.bars.tie.path[0].z = 9000;
};

describe("made bars without geometry", () => {
  it("is lost by the edit that takes its geometry, not by every edit after", () => {
    const whole = portal();
    const without = edited(whole, noPlace);
    expect(changeOf(planJob(jobOf(whole)), jobOf(without)).lost).toEqual(["tie"]);
    const elsewhere = edited(without, (doc) => {
      doc.bars.right.label = "Right post";
    });
    expect(changeOf(planJob(jobOf(without)), jobOf(elsewhere)).lost).toEqual([]);
  });
});

describe("figures that are the same", () => {
  it("are so where a turn of half round is said from its other side", () => {
    const stepped = (aside: number): Doc =>
      edited(portal(), (doc) => {
        doc.dies = { d: { od: 40, clr: 100 } };
        doc.bars.step = {
          tube: "t",
          die: "d",
          progress: "bent",
          path: [
            [0, 300, 0],
            [400, 300, 0],
            [800, 300, 400],
            [1200, 300 + aside, 400],
          ],
        };
      });
    const [was, is] = [stepped(0.001), stepped(-0.001)];
    const turn = (doc: Doc) => planJob(jobOf(doc)).byId.get("step")!.bend.bends[1]!.rotation;
    expect(Math.sign(turn(was))).toBe(-Math.sign(turn(is)));
    expect(changeOf(planJob(jobOf(was)), jobOf(is)).bars).toEqual([]);
  });
});
