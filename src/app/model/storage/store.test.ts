import "fake-indexeddb/auto";
import { IDBFactory } from "fake-indexeddb";
import { describe, expect, it, onTestFinished, vi } from "vitest";
import * as Y from "yjs";
import { editorOf, fromJson, jobText, nameJob, setValue, toJson } from "../document/index.ts";
import { demo, frame } from "../document/testing.ts";
import { indexedDisk } from "./indexed.ts";
import { memoryDisk } from "./memory.ts";
import type { Disk, JobStore, Kept, KeptJob } from "./port.ts";
import { storeOn } from "./store.ts";

/** A disk and how to come back to it after everything in memory is lost. */
const disks: readonly (readonly [string, Kept, () => { readonly disk: Disk; again: () => Disk }])[] = [
  [
    "memory",
    {
      state: "memory",
      why: "Save the job to a file: closing the page loses it, nothing is saved on this device.",
    },
    () => {
      const disk = memoryDisk();
      return { disk, again: () => disk };
    },
  ],
  [
    "the browser's database",
    { state: "kept" },
    () => {
      const factory = new IDBFactory();
      return { disk: indexedDisk(factory), again: () => indexedDisk(factory) };
    },
  ],
];

/** A job that opens. */
async function opened(store: JobStore, id: string): Promise<KeptJob> {
  const found = await store.open(id);
  return found.is === "open" ? found.job : expect.fail(`${found.is}`);
}

let tick = 1000;
const options = { now: () => tick++ };
const along = (s: number) => setValue(["bars", "stay-l", "path", 0, "along"], s);

describe.each(disks)("jobs kept in %s", (_, kept, make) => {
  const setUp = () => {
    const { disk, again } = make();
    return { disk, store: storeOn(disk, options), again: () => storeOn(again(), options) };
  };

  it("come back whole and to the letter", async () => {
    const { store, again } = setUp();
    const job = await store.create(demo());
    expect(job.kept()).toEqual(kept);
    const back = await opened(again(), job.entry.id);
    expect(jobText(toJson(back!.doc))).toBe(jobText(demo()));
  });

  it("keep every change as it is made, without a word from anyone", async () => {
    const { store, again } = setUp();
    const job = await store.create(frame());
    const editor = editorOf(job.doc);
    for (let s = 700; s < 760; s++) editor.run(along(s));
    expect(job.kept()).toEqual({ state: "keeping" });
    expect(await job.settled()).toEqual(kept);
    // nothing is closed: the page is gone from one moment to the next
    const back = await opened(again(), job.entry.id);
    expect(toJson(back!.doc)).toEqual(editor.state().document);
  });

  it("are listed newest first, by their name of now", async () => {
    const { store, again } = setUp();
    const first = await store.create(frame(), { name: "frame.json", digest: "abc" });
    const second = await store.create(demo());
    expect((await store.list()).map((e) => e.id)).toEqual([second.entry.id, first.entry.id]);
    editorOf(first.doc).run(nameJob("Renamed"));
    await first.settled();
    const list = await again().list();
    expect(list.map((e) => e.name)).toEqual(["Renamed", demo().name]);
    expect(list[0]).toEqual({ ...first.entry, file: { name: "frame.json", digest: "abc" } });
    expect(list[0]!.changed).toBeGreaterThan(list[1]!.changed);
  });

  it("leave what the device keeps beside them: the shop's own figures, whole, whatever becomes of the jobs", async () => {
    const { store, again } = setUp();
    const shop = { ...demo(), bars: {} };
    const job = await store.create(demo());
    await store.remember("my shop", shop);
    await store.delete(job.entry.id);
    expect(await again().recall("my shop")).toEqual(shop);
    await store.remember("my shop", null);
    expect(await again().recall("my shop")).toBeNull();
  });

  it("stay apart", async () => {
    const { store } = setUp();
    const [a, b] = [await store.create(frame()), await store.create(frame())];
    editorOf(a.doc).run(along(700));
    await a.settled();
    await store.delete(a.entry.id);
    const back = await opened(store, b.entry.id);
    expect(toJson(back!.doc)).toEqual(frame());
    expect(await store.open(a.entry.id)).toEqual({ is: "gone" });
    expect(await store.list()).toHaveLength(1);
  });

  it("say so when they were deleted in another window, and do not come back", async () => {
    const { store, again } = setUp();
    const job = await store.create(frame());
    onTestFinished(() => job.close());
    await again().delete(job.entry.id);
    editorOf(job.doc).run(along(700));
    expect(await job.settled()).toMatchObject({
      state: "refused",
      why: expect.stringMatching(/It was deleted in another window/),
    });
    expect(await store.list()).toEqual([]);
  });

  it("take in what two windows write in turns", async () => {
    const { store, again } = setUp();
    const one = await store.create(frame());
    const two = await opened(again(), one.entry.id);
    editorOf(one.doc).run(nameJob("One"));
    editorOf(two.doc).run(along(700));
    await Promise.all([one.settled(), two.settled()]);
    const back = toJson((await opened(again(), one.entry.id)).doc);
    expect(back.name).toBe("One");
    expect(JSON.stringify(back)).toContain('"along":700');
  });

  it("of very many changes are tidied up, and another window's changes stay", async () => {
    const { disk, store, again } = setUp();
    const job = await store.create(frame());
    const editor = editorOf(job.doc);
    for (let i = 0; i < 230; i++) {
      editor.run(along(600 + i));
      await job.settled();
    }
    expect((await disk.read(job.entry.id))!.updates.length).toBe(231);
    const back = await opened(again(), job.entry.id);
    expect((await disk.read(job.entry.id))!.updates.length).toBe(1);
    editor.run(along(900));
    editorOf(back.doc).run(nameJob("x"));
    await Promise.all([job.settled(), back.settled()]);
    const last = toJson((await opened(again(), job.entry.id)).doc);
    expect([last.name, JSON.stringify(last).includes('"along":900')]).toEqual(["x", true]);
  });

  it("remember small things of the device", async () => {
    const { store, again } = setUp();
    expect(await store.recall("last")).toBeUndefined();
    await store.remember("last", { job: "x", steps: [1, 2] });
    expect(await again().recall("last")).toEqual({ job: "x", steps: [1, 2] });
  });

  it("commit what waits when they are closed", async () => {
    const { store, again } = setUp();
    const job = await store.create(frame());
    editorOf(job.doc).run(along(701));
    await job.close();
    expect(JSON.stringify(toJson((await opened(again(), job.entry.id)).doc))).toContain('"along":701');
  });
});

describe("a device that refuses", () => {
  const full = () => new DOMException("no room", "QuotaExceededError");

  /** Refuses to write while told to. */
  function stubborn(error: () => Error | DOMException) {
    const { passing: _, ...disk } = memoryDisk();
    const state = { refuses: true };
    const unless =
      <A extends readonly unknown[]>(act: (...a: A) => Promise<void>) =>
      async (...a: A) => {
        if (state.refuses) throw error();
        return act(...a);
      };
    return {
      disk: {
        ...disk,
        begin: unless<Parameters<Disk["begin"]>>((...a) => disk.begin(...a)),
        append: unless<Parameters<Disk["append"]>>((...a) => disk.append(...a)),
        put: unless<Parameters<Disk["put"]>>((...a) => disk.put(...a)),
      },
      state,
    };
  }

  it("is told at once, the job stays usable, and what was refused goes in when there is room again", async () => {
    const { disk, state } = stubborn(full);
    const store = storeOn(disk, options);
    const job = await store.create(frame());
    onTestFinished(() => job.close());
    const why = "Save the job to a file. The storage of this device is full: the last changes are not saved.";
    expect(job.kept()).toEqual({ state: "refused", why });
    const heard = vi.fn();
    job.subscribe(heard);
    const editor = editorOf(job.doc);
    expect(editor.run(along(700)).ok).toBe(true);
    expect(await job.settled()).toEqual({ state: "refused", why });
    expect(jobText(editor.state().document)).toContain('"along": 700');
    state.refuses = false;
    editor.run(nameJob("Again"));
    expect(await job.settled()).toEqual({ state: "kept" });
    expect(heard).toHaveBeenCalled();
    const back = await opened(store, job.entry.id);
    expect(toJson(back!.doc)).toEqual(editor.state().document);
  });

  it("is asked again by itself", async () => {
    vi.useFakeTimers();
    onTestFinished(() => void vi.useRealTimers());
    const { disk, state } = stubborn(full);
    const job = await storeOn(disk, options).create(frame());
    state.refuses = false;
    await vi.advanceTimersByTimeAsync(3500);
    expect(job.kept()).toEqual({ state: "kept" });
  });

  it("is told in words, whatever its reason", async () => {
    const { disk } = stubborn(() => new DOMException("", "SecurityError"));
    const store = storeOn(disk, options);
    const job = await store.create(frame());
    onTestFinished(() => job.close());
    expect(job.kept()).toEqual({
      state: "refused",
      why: "Save the job to a file. This device refuses to save it (SecurityError): closing the page loses it.",
    });
    await expect(store.remember("a", 1)).resolves.toBeUndefined();
  });

  it("that has no database at all still opens a job", async () => {
    const none = {
      open: () => {
        throw new DOMException("", "SecurityError");
      },
    } as unknown as IDBFactory;
    const store = storeOn(indexedDisk(none), options);
    await expect(store.list()).rejects.toThrow();
    const job = await store.create(frame());
    onTestFinished(() => job.close());
    expect(job.kept()).toMatchObject({ state: "refused" });
    expect(toJson(job.doc)).toEqual(frame());
    expect(await store.recall("last")).toBeUndefined();
  });

  it("in the middle of a batch leaves all of it or nothing", async () => {
    const factory = new IDBFactory();
    const store = storeOn(indexedDisk(factory), options);
    const job = await store.create(frame());
    const broken = new Y.Doc();
    Y.applyUpdate(broken, Y.encodeStateAsUpdate(fromJson(frame())));
    const disk = indexedDisk(factory);
    // an entry that cannot be cloned fails after nothing else was written
    const bad = { ...job.entry, name: (() => {}) as unknown as string };
    await expect(disk.append(bad, Y.encodeStateAsUpdate(broken))).rejects.toThrow();
    expect((await disk.read(job.entry.id))!.updates).toHaveLength(1);
  });
});
