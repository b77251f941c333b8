import "fake-indexeddb/auto";
import { IDBFactory } from "fake-indexeddb";
import { describe, expect, it, onTestFinished, vi } from "vitest";
import { readAnyVersion } from "../../../core/job/index.ts";
import { computerOn } from "../compute/index.ts";
import { sessionWith } from "../compute/session.ts";
import { at, type JobDocument, moveBar, setValue, showUnits } from "../document/index.ts";
import { demo } from "../document/testing.ts";
import { indexedDisk, joinTabs, storeOn } from "../storage/index.ts";
import { appWith } from "./state.ts";

// counted: a job is read as often as it takes to know what an edit makes of it
vi.mock("../../../core/job/index.ts", async (original) => {
  const job = await original<typeof import("../../../core/job/index.ts")>();
  return { ...job, readAnyVersion: vi.fn(job.readAnyVersion) };
});

const noFonts = () => Promise.reject(new Error("no fonts here"));

async function withDemo(progress: Readonly<Record<string, string>> = {}) {
  const job = demo();
  const bars = Object.fromEntries(
    Object.entries(job.bars as JobDocument).map(([id, bar]) => [
      id,
      progress[id] ? { ...(bar as JobDocument), progress: progress[id] } : bar,
    ]),
  ) as JobDocument;
  const app = appWith({
    store: storeOn(indexedDisk(new IDBFactory()), { now: () => 1 }),
    computer: computerOn(sessionWith(noFonts)),
    join: joinTabs,
  });
  onTestFinished(() => app.do.close());
  await app.do.newJob({ ...job, bars });
  const now = () => app.state.getState();
  /** Until nothing waits but an answer. */
  const settled = async () => {
    await app.computer.settled();
    await new Promise((resolve) => setTimeout(resolve, 600));
    await app.computer.settled();
  };
  const document = () => now().job!.document;
  return { app, now, settled, document };
}

const back = () => moveBar("main-hoop", [-25, 0, 0], "Main hoop: 25.0 mm back");
const CASE_2 = {
  "main-hoop": "tacked",
  "pillar-bar-left": "notched",
  "pillar-bar-right": "bent",
  "header-bar": "notched",
};

describe("a step marked", () => {
  it("keeps what it was made to in the same edit; one end by itself is a state of its own", async () => {
    const { app, settled, document } = await withDemo();
    app.do.markStep("pillar-bar-left", "bent");
    await settled();
    expect(at(document(), ["bars", "pillar-bar-left", "progress"])).toBe("bent");
    const to = at(document(), ["made", "pillar-bar-left", "to"]);
    expect(to).toMatchObject({ sawn: { length: expect.any(Number) }, bent: { bends: expect.any(Array) } });
    app.do.markStep("pillar-bar-left", { notched: "A" });
    await settled();
    expect(at(document(), ["bars", "pillar-bar-left", "progress"])).toBe("bent");
    expect(Object.keys(at(document(), ["made", "pillar-bar-left", "to", "notched"]) as object)).toEqual([
      "A",
    ]);
    app.do.markStep("pillar-bar-left", { notched: "B" });
    await settled();
    expect(at(document(), ["bars", "pillar-bar-left", "progress"])).toBe("notched");
    const whole = document();
    app.do.undo();
    app.do.redo();
    await settled();
    expect(document()).toEqual(whole);
    // a step that it has passed leaves it where it is
    app.do.markStep("pillar-bar-left", "sawn");
    await settled();
    expect(document()).toEqual(whole);
    app.do.stepBack("pillar-bar-left", "sawn");
    await settled();
    expect(at(document(), ["made", "pillar-bar-left", "to"])).toEqual({ sawn: at(to!, ["sawn"]) });
    app.do.makeAgain("pillar-bar-left");
    app.do.answerAgain(true);
    await settled();
    expect(at(document(), ["bars", "pillar-bar-left", "progress"])).toBeUndefined();
    expect(at(document(), ["made", "pillar-bar-left", "past"])).toMatchObject([{ progress: "sawn" }]);
  });
});

describe("a change of what is wanted", () => {
  it("with nothing made is done at once", async () => {
    const { app, document } = await withDemo();
    const before = document();
    app.do.run(back());
    expect(document()).not.toEqual(before);
  });

  it("is read once where nothing is made, as it is done", async () => {
    const reads = async (progress: Readonly<Record<string, string>>) => {
      const { app, settled } = await withDemo(progress);
      vi.mocked(readAnyVersion).mockClear();
      app.do.run(setValue(["bars", "main-hoop", "label"], "Hoop", "Label"));
      await settled();
      return vi.mocked(readAnyVersion).mock.calls.length;
    };
    expect(await reads({})).toBe(1);
    expect(await reads(CASE_2)).toBe(2);
  });

  it("made again: the steps at the stations begin anew once that is done, and stay where it is cancelled", async () => {
    const { app, now, settled } = await withDemo(CASE_2);
    const stepOf = () => now().steps["bender main-hoop"];
    app.do.run(back());
    await settled();
    app.do.answerChange("stay");
    await settled();
    app.do.setStep("bender main-hoop", 3);
    const again = async (answer: "cancel" | "stay") => {
      app.do.makeAgain("main-hoop");
      app.do.answerAgain(true);
      await settled();
      expect(now().asked).toBeDefined();
      expect(stepOf()).toBe(3);
      app.do.answerChange(answer);
      await settled();
    };
    await again("cancel");
    expect(stepOf()).toBe(3);
    await again("stay");
    expect(stepOf()).toBe(0);
  });

  it("asks where the hoop is tacked; left where it is, no bar is listed and its record is written", async () => {
    const { app, now, settled, document } = await withDemo(CASE_2);
    const before = document();
    expect(app.do.run(back())).toMatchObject({ ok: true });
    expect(document()).toEqual(before);
    await settled();
    expect(now().asked).toMatchObject({ fast: ["main-hoop"], stay: { bars: [] } });
    app.do.answerChange("cancel");
    await settled();
    expect(document()).toEqual(before);
    app.do.run(back());
    await settled();
    const hoop = now().results.bars.get("main-hoop")!.bar.centreline.start;
    app.do.answerChange("stay");
    await settled();
    expect(now().asked).toBeUndefined();
    expect(now().results.bars.get("main-hoop")!.bar.centreline.start).toEqual(hoop);
    expect(now().changed.bars).toEqual([]);
    for (const id of Object.keys(CASE_2))
      expect(at(document(), ["made", id, "to", "sawn"]), id).toBeDefined();
    const after = document();
    app.do.undo();
    await settled();
    expect(now().asked).toBeUndefined();
    expect(document()).toEqual(before);
    app.do.redo();
    await settled();
    expect(document()).toEqual(after);
  });

  it("waits in one job while another is opened: an edit made there at once is done", async () => {
    const { app, now, document } = await withDemo(CASE_2);
    const first = now().job!.entry.id;
    await app.do.newJob(demo());
    const second = now().job!.entry.id;
    await app.do.openJob(first);
    await app.computer.settled();
    // the answer for the first job comes only when the second is in hand and has an edit of its own
    const { ask } = app.computer;
    let isAsked = () => {};
    const asked = new Promise<void>((resolve) => {
      isAsked = resolve;
    });
    let answer = () => {};
    const held = new Promise<void>((resolve) => {
      answer = resolve;
    });
    Object.assign(app.computer, {
      async ask(...all: Parameters<typeof ask>) {
        if (all[0] === "change") {
          isAsked();
          await held;
        }
        return ask.apply(app.computer, all);
      },
    });
    app.do.run(back());
    await asked;
    await app.do.openJob(second);
    const before = document();
    expect(app.do.run(back())).toMatchObject({ ok: true });
    answer();
    await expect.poll(document, { timeout: 10_000 }).not.toEqual(before);
  });

  it("cut loose: the hoop goes back by 25, both pillars and the header are listed", async () => {
    const { app, now, settled, document } = await withDemo(CASE_2);
    const [x] = now().results.bars.get("main-hoop")!.bar.centreline.start;
    app.do.run(back());
    await settled();
    await expect.poll(() => now().asked?.loose, { timeout: 10_000 }).toBeDefined();
    const { loose } = now().asked!;
    app.do.answerChange("loose");
    await settled();
    expect(now().results.bars.get("main-hoop")!.bar.centreline.start[0]).toBeCloseTo(x - 25, 6);
    expect(at(document(), ["bars", "main-hoop", "progress"])).toBe("notched");
    expect(now().changed.bars).toEqual(loose!.bars);
    expect(
      now()
        .changed.bars.map((v) => v.bar)
        .sort(),
    ).toEqual(["pillar-bar-left", "pillar-bar-right", "header-bar"].sort());
  });

  it("elsewhere does not list what nothing has changed for, undo and redo included", async () => {
    const { app, now, settled } = await withDemo({ "rear-stay-left": "notched" });
    app.do.run(setValue(["plates", Object.keys(demo().plates as object)[0]!, "note"], undefined, "nothing"));
    app.do.run(setValue(["shop", "errors", "mark"], 0.7, "marks"));
    await settled();
    expect(now().asked).toBeUndefined();
    app.do.undo();
    await settled();
    expect(now().asked).toBeUndefined();
    expect(now().changed.bars).toEqual([]);
  });
});

describe("what the last step moved", () => {
  it("is of that step: a mark moves nothing, an undo tells of nothing, other units leave it as it is", async () => {
    const { app, now, settled } = await withDemo();
    app.do.run(setValue(["bars", "header-bar", "label"], "Header", "label"));
    app.do.run(back());
    await settled();
    const { moves } = now();
    expect(moves.name).toBe("Main hoop: 25.0 mm back");
    expect(moves.of).toBe(now().job!.did);
    expect(moves.bars.find((b) => b.id === "main-hoop")!.by).toBeCloseTo(25, 3);
    const ids = moves.bars.map((b) => b.id);
    expect(ids).toContain("harness-bar");

    // what is shown in other units is the same job, and no step that undo would take back
    const { undo } = now().job!;
    app.do.run(showUnits("in", 32));
    await settled();
    expect(now().show).toEqual({ length: "in", fraction: 32 });
    expect(at(now().job!.document, ["show", "length"])).toBe("in");
    expect(now().moves).toBe(moves);
    expect(now().moves.of).toBe(now().job!.did);
    expect(now().job!.undo).toBe(undo);

    // a bar that is only marked is computed anew and comes out the same
    app.do.markStep("header-bar", "notched");
    await settled();
    expect(now().moves).toMatchObject({ bars: [], of: now().job!.did });

    // undo tells of nothing, least of all of the step before
    app.do.undo();
    await settled();
    expect(now().moves.name).toBeUndefined();
    expect(now().moves.bars).toEqual([]);
    app.do.undo();
    await settled();
    expect(now().moves.name).toBeUndefined();
    expect(now().show.length).toBe("in");
    app.do.redo();
    await settled();
    expect(now().moves.name).toBe("Main hoop: 25.0 mm back");
    expect(now().moves.bars.map((b) => b.id)).toEqual(ids);
  }, 30_000);

  it("does not go on under another step's name, where it touched bars that are made", async () => {
    const { app, now, settled } = await withDemo(CASE_2);
    app.do.run(back());
    await settled();
    await expect.poll(() => now().asked?.loose, { timeout: 10_000 }).toBeDefined();
    app.do.answerChange("loose");
    await settled();
    expect(now().changed.bars.length).toBe(3);
    app.do.run(showUnits("in", 32));
    await settled();
    expect(now().changed.bars.length).toBe(3);
    app.do.run(setValue(["bars", "dash-bar", "label"], "Dash", "label"));
    await settled();
    expect(now().changed.bars).toEqual([]);
    expect(now().moves.bars).toEqual([]);
  }, 30_000);
});
