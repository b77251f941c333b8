import "fake-indexeddb/auto";
import { IDBFactory } from "fake-indexeddb";
import { describe, expect, it, onTestFinished } from "vitest";
import { computerOn } from "../compute/index.ts";
import { sessionWith } from "../compute/session.ts";
import { jobText, newJobOf, setValue, shopOf } from "../document/index.ts";
import { demo, frame } from "../document/testing.ts";
import { type Disk, indexedDisk, memoryDisk, storeOn } from "../storage/index.ts";
import { appWith } from "./state.ts";

const disks: readonly (readonly [string, () => () => Disk])[] = [
  [
    "memory",
    () => {
      const disk = memoryDisk();
      return () => disk;
    },
  ],
  [
    "the browser's database",
    () => {
      const factory = new IDBFactory();
      return () => indexedDisk(factory);
    },
  ],
];

describe.each(disks)("my shop kept in %s", (_, make) => {
  const device = () => {
    const disk = make();
    return () => {
      const app = appWith({
        store: storeOn(disk()),
        computer: computerOn(sessionWith(() => Promise.reject(new Error("no fonts here")))),
        join: () => () => {},
        isDemo: ({ file }) => file?.name === "demo.json",
      });
      onTestFinished(() => app.do.close());
      const kept = () => app.state.getState().ownShop;
      return { app, kept };
    };
  };

  it("is that of the first job that is no demo, then whatever is set by hand, and is there the next time", async () => {
    const open = device();
    const { app, kept } = open();
    await app.do.openFile("demo.json", jobText(demo()));
    app.do.run(setValue(["shop", "kerf"], 9));
    await app.do.newJob(frame());
    await expect.poll(kept).toEqual(shopOf(frame()));
    app.do.run(setValue(["notcher", "saws"], [45, 40]));
    app.do.run(setValue(["dies", "d45", "tests"], [{ set: 30, got: 27.6 }]));
    await expect
      .poll(() => (kept()?.dies as Record<string, object>)?.d45)
      .toMatchObject({ tests: [{ set: 30 }] });
    expect(kept()?.notcher).toEqual({ saws: [45, 40] });
    // a bar is the car's
    app.do.run(setValue(["bars", "stay-l", "label"], "Stay"));
    const again = open();
    await expect.poll(again.kept).toEqual(kept());
    expect(again.kept()).not.toHaveProperty("bars");
  });

  it("stays while another job is opened, can be replaced and forgotten, and jobs keep their own", async () => {
    const { app, kept } = device()();
    await app.do.newJob(frame());
    await expect.poll(kept).toEqual(shopOf(frame()));
    await app.do.newJob(demo());
    await app.do.newJob(newJobOf("New", { length: "mm", fraction: 16 }, kept()));
    // the frame says no allowance: the new job has the example
    const begun = { ...shopOf(frame()), shop: { trim: 30, example: ["trim"] } };
    expect(shopOf(app.state.getState().job!.document)).toEqual(begun);
    expect(kept()).toEqual(shopOf(frame()));
    app.do.keepShop(shopOf(demo()));
    await expect.poll(kept).toEqual(shopOf(demo()));
    app.do.keepShop(undefined);
    await expect.poll(kept).toBeUndefined();
    expect(shopOf(app.state.getState().job!.document)).toEqual(begun);
  });

  it("stays deleted through edits, other jobs and the next time, until another is kept", async () => {
    const open = device();
    const { app, kept } = open();
    await app.do.newJob(frame());
    await expect.poll(kept).toEqual(shopOf(frame()));
    app.do.keepShop(undefined);
    await expect.poll(kept).toBeUndefined();
    app.do.run(setValue(["notcher", "saws"], [45, 40]));
    await app.do.newJob(demo());
    const again = open();
    await again.app.do.newJob(frame());
    again.app.do.run(setValue(["shop", "kerf"], 2));
    // what is kept next shows that all before it was done
    again.app.do.keepShop(shopOf(demo()));
    await expect.poll(again.kept).toEqual(shopOf(demo()));
    expect(kept()).toBeUndefined();
  });

  it("that a newer version kept is not written over by what a job has", async () => {
    const disk = memoryDisk();
    const newer = { format: "tubewright job", version: 99, tubes: { t: { od: 1, wall: 2, shape: "oval" } } };
    await storeOn(disk).remember("my shop", newer);
    const app = appWith({
      store: storeOn(disk),
      computer: computerOn(sessionWith(() => Promise.reject(new Error("no fonts here")))),
      join: () => () => {},
      isDemo: () => false,
    });
    onTestFinished(() => app.do.close());
    await app.do.newJob(frame());
    app.do.run(setValue(["shop", "kerf"], 2));
    await new Promise((done) => setTimeout(done, 50));
    expect(app.state.getState().ownShop).toBeUndefined();
    expect(await storeOn(disk).recall("my shop")).toEqual(newer);
  });

  it("loses what was taken back", async () => {
    const { app, kept } = device()();
    await app.do.newJob(frame());
    app.do.run(setValue(["dies", "extra"], { od: 30, clr: 90 }));
    await expect.poll(() => Object.keys((kept()?.dies ?? {}) as object)).toContain("extra");
    app.do.undo();
    await expect.poll(() => Object.keys((kept()?.dies ?? {}) as object)).not.toContain("extra");
  });
});
