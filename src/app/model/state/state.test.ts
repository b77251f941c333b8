import "fake-indexeddb/auto";
import { IDBFactory } from "fake-indexeddb";
import { describe, expect, it, onTestFinished } from "vitest";
import { computerOn } from "../compute/index.ts";
import { sessionWith } from "../compute/session.ts";
import {
  at,
  changeBar,
  type JobDocument,
  jobText,
  renameThing,
  setValue,
  showUnits,
} from "../document/index.ts";
import { demo, frame } from "../document/testing.ts";
import { indexedDisk, joinTabs, storeOn } from "../storage/index.ts";
import { appWith, linesOf } from "./state.ts";

const noFonts = () => Promise.reject(new Error("no fonts here"));

/** An app on its own device, and on the same device again after the page went away without a word. */
function device() {
  const disk = indexedDisk(new IDBFactory());
  let tick = 1;
  return () => {
    const app = appWith({
      store: storeOn(disk, { now: () => tick++ }),
      computer: computerOn(sessionWith(noFonts)),
      join: joinTabs,
    });
    onTestFinished(() => app.do.close());
    return app;
  };
}

const bundled = async () => ({ name: "sandling.json", text: jobText(demo()) });
const along = (s: number) => setValue(["bars", "stay-l", "path", 0, "along"], s);
const stay = (document: JobDocument | undefined) =>
  document && at(document, ["bars", "stay-l", "path", 0, "along"]);

async function withFrame() {
  const open = device();
  const app = open();
  await app.do.newJob(frame());
  return { app, open, now: () => app.state.getState() };
}

describe("the first start", () => {
  it("opens the demo, computed and kept", async () => {
    const app = device()();
    await app.do.start(bundled);
    const { job, results, jobs } = app.state.getState();
    expect(job).toMatchObject({
      document: demo(),
      kept: { state: "kept" },
      entry: { file: { name: "sandling.json" } },
    });
    expect(results.bars.size).toBe(Object.keys(demo().bars as object).length);
    expect(jobs.map((j) => j.name)).toEqual([demo().name]);
  });
});

describe("the next start", () => {
  it("is where the last one ended: job, station, bar in hand, steps", async () => {
    const { app, open, now } = await withFrame();
    app.do.run(along(800));
    app.do.take("cross");
    app.do.goTo("notcher");
    app.do.setStep("notcher cross A", 3);
    const again = open();
    await again.do.start(() => expect.fail("the demo was asked for"));
    const { job, station, inHand, steps } = again.state.getState();
    expect(stay(job?.document)).toBe(800);
    expect(job?.entry.id).toBe(now().job?.entry.id);
    expect([station, inHand, steps]).toEqual(["notcher", "cross", { "notcher cross A": 3 }]);
  });
});

describe("a command", () => {
  it("changes the job, its results, and the names of the steps", async () => {
    const { app, now } = await withFrame();
    const before = now().results.bars;
    expect(app.do.run(along(800))).toEqual({ ok: true, changed: true });
    expect(now().results.moved).toEqual(["stay-l", "stay-r"]);
    expect(now().results.bars.get("hoop")).toBe(before.get("hoop"));
    expect(now().job?.undo).toBe("set bars.stay-l.path[0].along");
    app.do.undo();
    expect(stay(now().job?.document)).toBe(790);
    expect(now().job).toMatchObject({ redo: "set bars.stay-l.path[0].along" });
    app.do.redo();
    expect(stay(now().results.document)).toBe(800);
  });

  it("that is refused leaves its reason until the next one", async () => {
    const { app, now } = await withFrame();
    expect(app.do.deleteBar("hoop").ok).toBe(false);
    expect(now().refusal).toMatchObject({
      name: "delete Main hoop",
      dependents: [{ bar: "cross" }, { bar: "stay-l" }],
    });
    app.do.run(along(801));
    expect(now().refusal).toBeUndefined();
  });

  it("leaves bars standing by what was computed", async () => {
    const { app, now } = await withFrame();
    const was = now().results.bars.get("stay-r")!.bar.centreline;
    expect(app.do.deleteBar("stay-l", "leave").ok).toBe(true);
    const is = now().results.bars.get("stay-r")!.bar.centreline;
    for (const i of [0, 1, 2]) expect(is.start[i]).toBeCloseTo(was.start[i]!, 3);
    expect(now().results.bars.get("stay-r")!.copes.A.onto).toEqual(["hoop"]);
  });

  it("may change the units that are shown", async () => {
    const { app, now } = await withFrame();
    app.do.run(showUnits("in", 32));
    expect(now().show).toEqual({ length: "in", fraction: 32 });
  });
});

describe("the bar in hand", () => {
  it("is a bar of the job, or none", async () => {
    const { app, now } = await withFrame();
    app.do.take("nobody");
    expect(now().inHand).toBeNull();
    app.do.take("cross");
    app.do.run(changeBar("cross", { label: "C" }));
    expect(now().inHand).toBe("cross");
    app.do.run(renameThing("bar", "cross", "brace"));
    expect(now().inHand).toBeNull();
  });
});

describe("marked bars", () => {
  it("are bars of the job, each once; one that is deleted leaves them, and nothing of them is in the job", async () => {
    const { app, now } = await withFrame();
    const before = now().job?.document;
    app.do.mark(["stay-l", "nobody", "stay-l", "cross"], true);
    app.do.mark(["stay-l"], true);
    expect(now().marked).toEqual(["stay-l", "cross"]);
    expect(now().inHand).toBeNull();
    expect(now().job?.document).toBe(before);
    expect(now().job?.undo).toBeUndefined();
    app.do.mark(["hoop"], true);
    app.do.mark(["stay-l"], false);
    expect(now().marked).toEqual(["cross", "hoop"]);
    expect(app.do.deleteBar("cross")).toMatchObject({ ok: true });
    expect(now().marked).toEqual(["hoop"]);
  });

  it("stay the same list through an edit, and are none in another job", async () => {
    const { app, now } = await withFrame();
    app.do.mark(["hoop"], true);
    const { marked } = now();
    app.do.run(along(700));
    expect(now().marked).toBe(marked);
    await app.do.newJob(frame());
    expect(now().marked).toEqual([]);
    app.do.mark(["hoop"], true);
    await app.do.deleteJob(now().job?.entry.id ?? "");
    expect(now().marked).toEqual([]);
  });
});

describe("several jobs", () => {
  it("open, go and come; each keeps its own changes", async () => {
    const { app, now } = await withFrame();
    const first = now().job!.entry.id;
    app.do.run(along(805));
    await app.do.openFile("sandling.json", jobText(demo()));
    expect(now().job?.document).toEqual(demo());
    expect(now().job?.undo).toBeUndefined();
    expect(now().jobs).toHaveLength(2);
    await app.do.openJob(first);
    expect(stay(now().job?.document)).toBe(805);
    await app.do.deleteJob(first);
    expect(now().job).toBeUndefined();
    expect(now().jobs.map((j) => j.name)).toEqual([demo().name]);
    expect(app.do.run(along(1))).toMatchObject({ ok: false, lines: ["open a job first"] });
  });

  it("the very same file is opened where it is, when asked so; a changed one is another job", async () => {
    const app = device()();
    const text = jobText(frame());
    await app.do.openFile("frame.json", text, "again");
    app.do.run(along(806));
    await app.do.openFile("frame.json", text, "again");
    expect(stay(app.state.getState().job?.document)).toBe(806);
    await app.do.openFile("frame.json", text.replace("Trial", "Other"), "again");
    expect(app.state.getState().jobs).toHaveLength(2);
    await app.do.openFile("frame.json", text);
    expect(app.state.getState().jobs).toHaveLength(3);
  });

  it("of two asked for at once the last one is shown", async () => {
    const { app, now } = await withFrame();
    const first = now().job!.entry.id;
    await app.do.newJob({ ...frame(), name: "Second" });
    const second = now().job!.entry.id;
    await Promise.all([app.do.openJob(second), app.do.openJob(first)]);
    expect(now().job?.entry.id).toBe(first);
  });
});

describe("a file that does not pass", () => {
  it("is named with its lines and its text; the job in hand stays", async () => {
    const { app, now } = await withFrame();
    const text = jobText(frame()).replace('"od": 45', '"od": -45');
    await app.do.openFile("bad.json", text);
    expect(now().unreadable).toMatchObject({ name: "bad.json", text });
    expect(now().unreadable?.lines[0]).toMatch(/^tubes\.main\.od: /);
    expect(now().job?.document).toEqual(frame());
    app.do.dismiss();
    expect(now().unreadable).toBeUndefined();
  });
});

describe("two windows", () => {
  it("show the same job in step", async () => {
    const { app, open, now } = await withFrame();
    const other = open();
    await other.do.openJob(now().job!.entry.id);
    other.do.run(along(820));
    await expect.poll(() => stay(now().job?.document)).toBe(820);
    await expect.poll(() => stay(now().results.document)).toBe(820);
    expect(now().job?.undo).toBeUndefined();
    app.do.run(changeBar("hoop", { label: "H" }));
    await expect.poll(() => at(other.state.getState().job!.document, ["bars", "hoop", "label"])).toBe("H");
  });
});

describe("a newer version", () => {
  it("waits for the user, and for what is being kept", async () => {
    const { app, now } = await withFrame();
    let started = "";
    app.do.offerRestart(() => {
      started = now().job?.kept.state ?? "";
    });
    expect(now().newVersion).toBe(true);
    app.do.run(along(830));
    await app.do.restart();
    expect(started).toBe("kept");
  });
});

describe("a job that a newer version wrote", () => {
  const newer = { ...frame(), version: 3 };
  const line = /^Update Tubewright to change this job\. A newer Tubewright \(version 3\) wrote it/;
  const cautions = (app: ReturnType<ReturnType<typeof device>>) =>
    app.state.getState().cautions.map((c) => c.text);

  it("is shown with its figures, says that it is read-only, and takes no change", async () => {
    const app = device()();
    await app.do.openFile("newer.json", jobText(newer));
    expect(app.state.getState().unreadable).toBeUndefined();
    expect(app.state.getState().results.bars.size).toBe(Object.keys(frame().bars as object).length);
    expect(cautions(app)).toEqual([expect.stringMatching(line)]);
    for (const refused of [app.do.run(along(830)), app.do.undo(), app.do.redo(), app.do.deleteBar("stay-l")])
      expect(refused).toMatchObject({ ok: false, lines: [expect.stringMatching(line)] });
    expect(app.state.getState().job?.document).toEqual(newer);
  });

  it("comes back from the device as it was written, with what is unknown here", async () => {
    const open = device();
    const first = open();
    const unknown = { ...newer, sleeves: { s: { on: "hoop", along: "1 in" } } };
    await first.do.openFile("newer.json", jobText(unknown));
    // no edit may mend it: what this version does not know stays
    expect(first.do.run(setValue(["sleeves"], undefined))).toMatchObject({ ok: false });
    const id = first.state.getState().job!.entry.id;
    const again = open();
    await again.do.openJob(id);
    expect(again.state.getState().job?.document).toEqual(unknown);
    expect(cautions(again)).toEqual([expect.stringMatching(line)]);
    expect(linesOf(again.state.getState().job!.read)[1]).toMatch(/^sleeves: unknown key/);
    await again.do.newJob(frame());
    expect(cautions(again)).toEqual([]);
    expect(again.do.run(along(830))).toMatchObject({ ok: true });
  });
});
