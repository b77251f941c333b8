import { readFileSync } from "node:fs";
import { describe, expect, it } from "vitest";
import { problemLine } from "../../words/index.ts";
import { backTo, type Edits, readJob, thrownAway } from "../job/index.ts";
import { dist } from "../space/index.ts";
import { cardOf, changeOf, marked, type NotchMethod, planJob, recordsMissing } from "./index.ts";
import { madeOf } from "./made.ts";

// biome-ignore lint/suspicious/noExplicitAny: a job is edited here as a person edits its file
type Doc = any;
const demo: Doc = JSON.parse(readFileSync("demo/sandling.json", "utf8"));
const planOf = (doc: Doc) => {
  const read = readJob(doc);
  if (!read.ok) throw new Error(read.problems.map(problemLine).join("\n"));
  return planJob(read.job);
};

/** A document with values set in it, as the app's commands set them. */
function edited(document: Doc, edits: Edits): Doc {
  const next = structuredClone(document);
  for (const [path, to] of edits) {
    const last = path.at(-1)!;
    let home = next;
    for (const key of path.slice(0, -1)) home = home[key] ??= {};
    if (to === undefined) delete home[last];
    else home[last] = JSON.parse(JSON.stringify(to));
  }
  return next;
}

const set = (document: Doc, id: string, mark: Parameters<typeof marked>[2], by?: NotchMethod): Doc => {
  const done = marked(planOf(document), id, mark, by)!;
  return edited(document, [
    [["bars", id, "progress"], done.progress],
    [["made", id, "to"], done.to],
  ]);
};

const plan = planOf(demo);
const BENT = "pillar-bar-left";

describe("what a step keeps", () => {
  it.each(["hole saw", "wrap"] as const)(
    "gives back the very bar that the plan had, every bar of the demo, by %s",
    (by) => {
      const doc = structuredClone(demo);
      doc.made = {};
      for (const { id } of plan.bars) {
        doc.bars[id].progress = "notched";
        doc.made[id] = JSON.parse(JSON.stringify({ to: marked(plan, id, "notched", by)!.to }));
      }
      const all = planOf(doc);
      let compared = 0;
      for (const { id, bar, bend, copes, leastBack } of plan.bars) {
        const made = madeOf(all, id)!;
        expect(made.sawn, id).toBeCloseTo(bend.blank + bend.trim.A + bend.trim.B, 5);
        made.shape.angles.forEach((a, i) => {
          expect(a, id).toBeCloseTo(bend.bends[i]!.angle, 7);
        });
        expect(dist(made.line.start, bar.centreline.start), id).toBeLessThan(1e-4);
        expect(dist(made.line.finish, bar.centreline.finish), id).toBeLessThan(1e-3);
        for (const end of ["A", "B"] as const) {
          const { cope } = copes[end];
          expect(made.over[end]).toBeCloseTo(bar.trim[end] - leastBack[end], 5);
          // A saw leaves the curve only where it can make it; a wrap and a flat cut are the curve.
          if (doc.made[id].to.notched[end].by === "hole saw" || cope.bentInJoint) continue;
          for (const wall of ["outer", "bore"] as const)
            made.rims[end]![wall].forEach((p, phi) => {
              const back = cope[wall][phi]!;
              expect(p === undefined, `${id} ${end} ${wall} ${phi}`).toBe(Number.isNaN(back));
              if (p) expect(Math.abs(p[2] + back), `${id} ${end} ${wall} ${phi}`).toBeLessThan(0.02);
              compared++;
            });
        }
      }
      expect(compared).toBeGreaterThan(by === "wrap" ? 40000 : 3000);
    },
  );

  it("is written once: another mark, after the plan has changed, leaves it as it is", () => {
    const sawn = set(demo, BENT, "sawn");
    const moved = structuredClone(sawn);
    moved.plates["main-hoop-foot-a"].at[0] -= 20;
    moved.shop = { ...moved.shop, trim: 44 };
    const bent = set(moved, BENT, "bent");
    expect(bent.made[BENT].to.sawn).toEqual(sawn.made[BENT].to.sawn);
    expect(bent.made[BENT].to.bent.bends).toHaveLength(plan.byId.get(BENT)!.bend.bends.length);
    expect(bent.bars[BENT].progress).toBe("bent");
  });

  it("keeps each end by itself: one notched is a state of its own, both are notched", () => {
    const a = set(set(demo, BENT, "bent"), BENT, { notched: "A" });
    expect(a.bars[BENT].progress).toBe("bent");
    expect(Object.keys(a.made[BENT].to.notched)).toEqual(["A"]);
    const made = madeOf(planOf(a), BENT)!;
    expect([made.rims.A !== undefined, made.rims.B]).toEqual([true, undefined]);
    const both = set(a, BENT, { notched: "B" });
    expect(both.bars[BENT].progress).toBe("notched");
    expect(both.made[BENT].to.notched.A).toEqual(a.made[BENT].to.notched.A);
  });

  it("says the card's number, where the one that was issued has these figures", () => {
    const { code } = cardOf(plan, plan.byId.get(BENT)!);
    const doc = { ...structuredClone(demo), cards: { [BENT]: { n: 3, code, on: "2026-11-29" } } };
    const { to } = marked(planOf(doc), BENT, "tacked")!;
    expect([to.sawn, to.bent, to.notched?.A, to.tacked].map((step) => step?.card)).toEqual([3, 3, 3, 3]);
    doc.bars[BENT].trim = { A: 31 };
    expect(JSON.stringify(marked(planOf(doc), BENT, "tacked")!.to)).not.toContain('"card"');
  });

  it("is what the job's own figures say, where the job keeps nothing", () => {
    const doc = structuredClone(demo);
    doc.bars[BENT].progress = "bent";
    const missing = recordsMissing(planOf(doc));
    expect([...missing.keys()]).toEqual([BENT]);
    const { fitted: _, ...to } = marked(plan, BENT, "bent")!.to;
    expect(missing.get(BENT)).toEqual(to);
    expect(recordsMissing(planOf(edited(doc, [[["made", BENT, "to"], to]]))).size).toBe(0);
  });
});

describe("what is made stays made", () => {
  it("a bar bent, its plan changed twice: judged as it was bent, not as the plan was between", () => {
    const bent = set(demo, BENT, "bent");
    const longer = structuredClone(bent);
    longer.shop = { ...longer.shop, trim: 60 };
    const back = structuredClone(bent);
    const judged = changeOf(planOf(longer), readOf(back)).bars.find((b) => b.bar === BENT)!;
    // The allowance of the plan between was never sawn.
    expect(judged.ends!.A + judged.ends!.B).toBeCloseTo(60, 1);
  });

  it("a bar given another die after it was bent is what the first die made of it", () => {
    const bent = set(demo, BENT, "bent");
    const other = structuredClone(bent);
    other.dies.wide = { ...other.dies[other.bars[BENT].die], clr: 160 };
    other.bars[BENT].die = "wide";
    const made = madeOf(planOf(bent), BENT, readOf(other).dies)!;
    expect(made.shape.radii).toEqual(madeOf(planOf(bent), BENT)!.shape.radii);
  });

  it("tacked, it stays where it was when the plan moves; what lands on it lands there", () => {
    const tacked = set(demo, "main-hoop", "tacked");
    const moved = structuredClone(tacked);
    moved.bars["main-hoop"].path = moved.bars["main-hoop"].path.map((n: Doc) =>
      Array.isArray(n) ? [n[0] - 25, n[1], n[2]] : n,
    );
    for (const foot of ["main-hoop-foot-a", "main-hoop-foot-b"]) moved.plates[foot].at[0] -= 25;
    const now = planOf(moved);
    for (const { id, bar } of plan.bars) {
      expect(dist(now.byId.get(id)!.bar.centreline.start, bar.centreline.start), id).toBeLessThan(1e-3);
      expect(now.byId.get(id)!.bend.blank, id).toBeCloseTo(plan.byId.get(id)!.bend.blank, 3);
    }
    const loose = planOf(edited(moved, backTo(moved, "main-hoop", "notched")));
    expect(loose.byId.get("main-hoop")!.bar.centreline.start[0]).toBeCloseTo(
      plan.byId.get("main-hoop")!.bar.centreline.start[0] - 25,
      6,
    );
  });
});

describe("going back and throwing away", () => {
  const tacked = set(set(demo, BENT, "notched"), BENT, "tacked");

  it("back step by step keeps what the steps before were made to, and ends where it began", () => {
    const notched = edited(tacked, backTo(tacked, BENT, "notched"));
    expect(Object.keys(notched.made[BENT].to)).toEqual(["sawn", "bent", "notched"]);
    const sawn = edited(notched, backTo(notched, BENT, "sawn"));
    expect(sawn.made[BENT].to).toEqual({ sawn: tacked.made[BENT].to.sawn });
    expect(sawn.bars[BENT].progress).toBe("sawn");
    const none = edited(sawn, backTo(sawn, BENT, "laid out"));
    expect(none.bars[BENT]).toEqual(demo.bars[BENT]);
    expect(planOf(none).byId.get(BENT)!.bend).toEqual(plan.byId.get(BENT)!.bend);
    expect(backTo(none, BENT, "sawn")).toEqual([]);
  });

  it("where it was in the car goes with its tacks; where it was put to be notched stays with a bent bar", () => {
    const at = (over?: object) => ({
      ...tacked,
      asBuilt: {
        [BENT]: {
          path: [
            [0, 0, 0],
            [0, 0, 9],
          ],
          ...over,
        },
      },
    });
    expect(backTo(at(), BENT, "notched").some(([path]) => path[0] === "asBuilt")).toBe(true);
    expect(backTo(at({ over: { A: 1 } }), BENT, "bent").some(([path]) => path[0] === "asBuilt")).toBe(false);
    expect(backTo(at({ over: { A: 1 } }), BENT, "sawn").some(([path]) => path[0] === "asBuilt")).toBe(true);
  });

  it("thrown away, nothing of it is lost and none of it counts; thrown away twice, both are kept", () => {
    const read = {
      ...tacked,
      made: {
        ...tacked.made,
        [BENT]: { ...tacked.made[BENT], bent: [{ what: "angle", bend: 1, angle: 40, note: "by hand" }] },
      },
    };
    const once = edited(read, thrownAway(read, BENT));
    expect(once.bars[BENT].progress).toBeUndefined();
    expect(once.made[BENT]).toEqual({ past: [{ progress: "tacked", ...read.made[BENT] }] });
    expect(planOf(once).byId.get(BENT)!.bend).toEqual(plan.byId.get(BENT)!.bend);
    expect(madeOf(planOf(once), BENT)).toBeUndefined();
    expect(thrownAway(once, BENT)).toEqual([]);
    const again = set(once, BENT, "sawn");
    const twice = edited(again, thrownAway(again, BENT));
    expect(twice.made[BENT].past).toHaveLength(2);
    expect(readOf(twice).made![BENT]!.past[0]!.bent).toEqual([
      { what: "angle", bend: 1, angle: 40, note: "by hand" },
    ]);
  });

  it("a record that cannot be is one clear line", () => {
    const wrong = structuredClone(tacked);
    wrong.made[BENT].to.notched.A.zero = [0, 0, 0];
    wrong.made[BENT].to.sawn.lenght = 3;
    const found = readJob(wrong);
    expect(found.ok ? [] : found.problems.map(problemLine)).toEqual([
      `made.${BENT}.to.sawn.lenght: unknown key — did you mean "length"?`,
      expect.stringContaining(`made.${BENT}.to.notched.A.zero: `),
    ]);
  });
});

function readOf(doc: Doc) {
  const read = readJob(doc);
  if (!read.ok) throw new Error(read.problems.map(problemLine).join("\n"));
  return read.job;
}
