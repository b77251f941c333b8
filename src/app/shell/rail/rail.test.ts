import { describe, expect, it, onTestFinished } from "vitest";
import type { Progress } from "../../../core/job/index.ts";
import { computerOn } from "../../model/compute/index.ts";
import { sessionWith } from "../../model/compute/session.ts";
import {
  at,
  changeBar,
  type JobDocument,
  type JsonObject,
  moveBar,
  setValue,
} from "../../model/document/index.ts";
import { demo } from "../../model/document/testing.ts";
import { appWith } from "../../model/state/state.ts";
import { joinTabs, memoryDisk, storeOn } from "../../model/storage/index.ts";
import { arranged, sayOrder } from "./arrange.ts";
import { markDone } from "./mark-done.ts";
import { neighbour, pick, railOf, setMarking } from "./rail-state.ts";
import { type BarRow, countsOf, rowsOf } from "./rows.ts";

async function opened(change: (job: JobDocument) => JobDocument = (job) => job) {
  const app = appWith({
    store: storeOn(memoryDisk(), { now: () => 1 }),
    computer: computerOn(sessionWith(() => Promise.reject(new Error("no fonts")))),
    join: joinTabs,
  });
  onTestFinished(() => app.do.close());
  await app.do.newJob(change(demo()));
  await app.computer.settled();
  const document = (): JobDocument => app.state.getState().job!.document;
  const rows = (before: readonly BarRow[] = []) =>
    rowsOf(
      { document: document(), results: app.state.getState().results, dangers: [], differs: undefined },
      before,
    );
  const shown = (sort: Parameters<typeof arranged>[1], find = "") =>
    arranged(rows(), sort, find, { document: document(), results: app.state.getState().results });
  return { app, document, rows, shown };
}

const progressed =
  (progress: Readonly<Record<string, Progress>>) =>
  (job: JobDocument): JobDocument => ({
    ...job,
    bars: Object.fromEntries(
      Object.entries(job.bars as JsonObject).map(([id, bar]) => [
        id,
        progress[id] ? { ...(bar as JsonObject), progress: progress[id] } : bar,
      ]),
    ),
  });
const ids = (groups: readonly { readonly rows: readonly BarRow[] }[]): string[] =>
  groups.flatMap((group) => group.rows.map((row) => row.id));

describe("the rows", () => {
  it("stay the same objects through the steps of a drag; only a bar whose own words change has a new one", async () => {
    const { app, rows } = await opened();
    const before = rows();
    let now = before;
    let fresh = 0;
    for (let step = 1; step <= 10; step++) {
      app.do.run(moveBar("main-hoop", [-0.5, 0, 0], "main hoop back"), "drag");
      await app.computer.settled();
      const next = rows(now);
      fresh += next.filter((row) => !now.includes(row)).length;
      now = next;
    }
    expect(fresh).toBe(0);
    expect(now).toBe(before);
    app.do.run(changeBar("dash-bar", { label: "Dash tube" }, "rename"));
    await app.computer.settled();
    expect(
      rows(now)
        .filter((row) => !now.includes(row))
        .map((row) => row.label),
    ).toEqual(["Dash tube"]);
  });

  it("count what is sawn and tacked, further ones with them", async () => {
    const { rows } = await opened(
      progressed({
        "main-hoop": "tacked",
        "dash-bar": "welded",
        "header-bar": "sawn",
        "harness-bar": "notched",
      }),
    );
    expect(countsOf(rows())).toMatch(/^36 bars · 4 sawn · 2 tacked( · \d+ to check)?$/);
  });
});

describe("sorted", () => {
  it("by place: front, middle, rear; in each left before centre before right, and there low to high", async () => {
    const { app, shown } = await opened();
    const groups = shown("place");
    expect(groups.map((group) => group.title)).toEqual(["Front", "Middle", "Rear"]);
    expect(new Set(ids(groups)).size).toBe(36);
    // by the ends of each centreline alone: a slow twin for straight bars
    const { bars } = app.state.getState().results;
    const all = [...bars.values()].flatMap(({ bar: { centreline: c } }) => [c.start[0], c.finish[0]]);
    const [rear, length] = [Math.min(...all), Math.max(...all) - Math.min(...all)];
    for (const [i, group] of groups.entries()) {
      let last = { side: -1, z: Number.NEGATIVE_INFINITY };
      for (const { id } of group.rows) {
        const { start, finish, bends } = bars.get(id)!.bar.centreline;
        if (bends.length > 0) continue;
        const [x, y, z] = [0, 1, 2].map((k) => (start[k]! + finish[k]!) / 2) as [number, number, number];
        expect(Math.min(2, Math.floor(3 - (3 * (x - rear)) / length)), id).toBe(i);
        const side = y > 20 ? 0 : y < -20 ? 2 : 1;
        expect(side, id).toBeGreaterThanOrEqual(last.side);
        if (side === last.side) expect(z, id).toBeGreaterThan(last.z - 1.01);
        last = { side, z };
      }
    }
  });

  it("by progress: laid out first, welded last; by the order of fitting: the job's own, and what it leaves out is told", async () => {
    const { app, document, shown } = await opened(progressed({ "main-hoop": "welded", "dash-bar": "sawn" }));
    expect(shown("progress").map(({ title, rows }) => [title, rows.length])).toEqual([
      ["Laid out", 34],
      ["Sawn", 1],
      ["Welded", 1],
    ]);
    const about = () => ({ document: document(), results: app.state.getState().results });
    app.do.run(setValue(["order"], ["dash-bar", "main-hoop"], "order"));
    await app.computer.settled();
    expect(ids(shown("order")).slice(0, 2)).toEqual(["dash-bar", "main-hoop"]);
    expect(ids(shown("order")).length).toBe(36);
    expect(sayOrder(about())).toContain("34 bars");
    app.do.run(setValue(["order"], undefined, "order"));
    await app.computer.settled();
    expect(sayOrder(about())).toContain("no order yet");
  });

  it("found by their own name first, then by what they land on", async () => {
    const { shown } = await opened();
    const groups = shown("job", "HOOP main");
    expect(ids(groups.slice(0, 1))).toEqual(["main-hoop"]);
    expect(groups[1]?.title).toBe("By what they land on");
    expect(ids(groups.slice(1))).toContain("pillar-bar-left");
    expect(shown("place", "no such bar")).toEqual([]);
  });
});

describe("several bars", () => {
  it("are marked sawn as one step of undo, each with what it was made to; the others are named and left", async () => {
    const { app, document } = await opened(progressed({ "main-hoop": "bent" }));
    const bars = ["dash-bar", "main-hoop", "header-bar", "harness-bar"];
    const before = document();
    const left = await markDone(app, bars, "sawn");
    await expect
      .poll(() => at(document(), ["bars", "dash-bar", "progress"]), { timeout: 20_000 })
      .toBe("sawn");
    expect(left).toBe("Left as they are: Main hoop (already bent).");
    for (const id of ["dash-bar", "header-bar", "harness-bar"]) {
      expect(at(document(), ["bars", id, "progress"]), id).toBe("sawn");
      expect(at(document(), ["made", id, "to", "sawn", "length"]), id).toBeGreaterThan(300);
    }
    expect(app.state.getState().job?.undo).toBe("3 bars: sawn");
    expect(app.do.undo().ok).toBe(true);
    await expect.poll(() => document(), { timeout: 20_000 }).toEqual(before);
  });

  it("each is judged as a single mark is: the same record, to the last figure", async () => {
    const [one, several] = [await opened(), await opened()];
    one.app.do.markStep("pillar-bar-left", "bent");
    await expect
      .poll(() => at(one.document(), ["made", "pillar-bar-left", "to"]), { timeout: 20_000 })
      .toBeDefined();
    expect(await markDone(several.app, ["pillar-bar-left", "dash-bar"], "bent")).toBe(
      "Left as they are: Dash bar (no bends).",
    );
    await expect
      .poll(() => at(several.document(), ["made", "pillar-bar-left", "to"]), { timeout: 20_000 })
      .toEqual(at(one.document(), ["made", "pillar-bar-left", "to"]));
    expect(at(several.document(), ["bars", "dash-bar", "progress"])).toBeUndefined();
  });

  it("without a place are left, and nothing is done where none can be", async () => {
    const { app, document } = await opened();
    app.do.run(setValue(["bars", "dash-bar", "path", 0], { on: "dash-bar", along: 100 }, "x"));
    app.do.run(
      setValue(
        ["bars", "lost"],
        {
          label: "Lost bar",
          tube: "45x2.5",
          path: [
            [0, 0, 0],
            [0, 0, 0],
          ],
        },
        "x",
      ),
    );
    await app.computer.settled();
    const before = document();
    const { without } = app.state.getState().results;
    expect(without.map((w) => w.id)).toContain("lost");
    expect(await markDone(app, ["lost"], "sawn")).toBe("Left as they are: Lost bar (no place yet).");
    expect(document()).toBe(before);
  });

  it("are marked by Ctrl and Shift, and leaving the marking takes the marks off", async () => {
    const { app, rows } = await opened();
    const shown = rows().map((row) => row.id);
    railOf(app).setState({ shown });
    const keys = { ctrlKey: false, metaKey: false, shiftKey: false };
    pick(app, shown[1]!, { ...keys, ctrlKey: true });
    pick(app, shown[4]!, { ...keys, shiftKey: true });
    expect([...app.state.getState().marked].sort()).toEqual(shown.slice(1, 5).sort());
    pick(app, shown[3]!, { ...keys, metaKey: true });
    expect(app.state.getState().marked).not.toContain(shown[3]);
    expect(app.state.getState().inHand).toBeNull();
    setMarking(app, false);
    expect(app.state.getState().marked).toEqual([]);
    pick(app, shown[3]!, keys);
    expect(app.state.getState().inHand).toBe(shown[3]);
    expect([neighbour(app, -1), neighbour(app, 1)]).toEqual([shown[2], shown[4]]);
    // taken from the sheet: it is closed, and the page under it is not left with the search
    railOf(app).setState({ sheet: "open", find: "hoop" });
    pick(app, shown[3]!, keys);
    expect(app.state.getState().inHand).toBeNull();
    expect(railOf(app).getState()).toMatchObject({ sheet: "no", find: "" });
    app.do.take(shown.at(-1)!);
    expect(neighbour(app, 1)).toBeUndefined();
    app.do.take(null);
    expect([neighbour(app, -1), neighbour(app, 1)]).toEqual([shown.at(-1), shown[0]]);
  });
});
