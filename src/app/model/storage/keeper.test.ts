import "fake-indexeddb/auto";
import { IDBDatabase, IDBFactory, IDBTransaction } from "fake-indexeddb";
import { describe, expect, it, onTestFinished, vi } from "vitest";
import { editorOf, setValue, toJson } from "../document/index.ts";
import { frame } from "../document/testing.ts";
import { indexedDisk } from "./indexed.ts";
import { memoryDisk } from "./memory.ts";
import type { Disk } from "./port.ts";
import { storeOn } from "./store.ts";

const along = (s: number) => setValue(["bars", "stay-l", "path", 0, "along"], s);

describe("an edit", () => {
  it("is handed over whole and committed in its own turn, strictly, and waits for no answer", async () => {
    const store = storeOn(indexedDisk(new IDBFactory()));
    const job = await store.create(frame());
    onTestFinished(() => job.close());
    const editor = editorOf(job.doc);
    const begun = vi.spyOn(IDBDatabase.prototype, "transaction");
    const committed = vi.spyOn(IDBTransaction.prototype, "commit");
    onTestFinished(() => void vi.restoreAllMocks());
    for (const s of [700, 701, 702]) {
      editor.run(along(s));
      // nothing was awaited: no answer can have come
      expect(begun).toHaveBeenCalledTimes(s - 699);
      expect(committed).toHaveBeenCalledTimes(s - 699);
    }
    for (const [, mode, options] of begun.mock.calls)
      expect([mode, options]).toEqual(["readwrite", { durability: "strict" }]);
    expect(job.kept()).toEqual({ state: "keeping" });
    expect(await job.settled()).toEqual({ state: "kept" });
  });

  it("is not held up by anything that the page reads or remembers", async () => {
    const store = storeOn(indexedDisk(new IDBFactory()));
    const job = await store.create(frame());
    onTestFinished(() => job.close());
    await store.list();
    const committed = vi.spyOn(IDBTransaction.prototype, "commit");
    const begun = vi.spyOn(IDBDatabase.prototype, "transaction");
    onTestFinished(() => void vi.restoreAllMocks());
    const others = [store.remember("a", 1), store.list(), store.open(job.entry.id)];
    editorOf(job.doc).run(along(700));
    // a transaction that is left open ends only when the page has time for it, and the next one waits for it
    expect(committed).toHaveBeenCalledTimes(begun.mock.calls.length);
    await Promise.all(others);
  });
});

describe("a disk", () => {
  const lasting = (): Disk => {
    const { passing: _, ...disk } = memoryDisk();
    return disk;
  };

  it("that does not answer is told of, waited for no longer, and believed when it answers after all", async () => {
    vi.useFakeTimers();
    onTestFinished(() => void vi.useRealTimers());
    const disk = lasting();
    let answer = (): void => {};
    const store = storeOn({
      ...disk,
      append: (...change) =>
        new Promise((resolve) => {
          answer = () => void disk.append(...change).then(resolve);
        }),
    });
    const job = await store.create(frame());
    editorOf(job.doc).run(along(700));
    const settled = job.settled();
    await vi.advanceTimersByTimeAsync(4000);
    expect(job.kept()).toEqual({ state: "keeping" });
    await vi.advanceTimersByTimeAsync(1500);
    expect(await settled).toEqual({
      state: "refused",
      why: "Save the job to a file. This device has not confirmed the last changes for 5 seconds: closing the page may lose them.",
    });
    answer();
    await vi.advanceTimersByTimeAsync(1);
    expect(job.kept()).toEqual({ state: "kept" });
    await job.close();
  });

  it.each([1, 2, 3])(
    "that refuses write %i of three never has a gap, and has all of it in the end",
    async (n) => {
      vi.useFakeTimers();
      onTestFinished(() => void vi.useRealTimers());
      const disk = lasting();
      let calls = 0;
      const store = storeOn({
        ...disk,
        async append(...change) {
          if (++calls === n) throw new DOMException("", "QuotaExceededError");
          await disk.append(...change);
        },
      });
      const job = await store.create(frame());
      onTestFinished(() => job.close());
      const editor = editorOf(job.doc);
      const there = async () => {
        const back = await store.open(job.entry.id);
        return back.is === "open" ? JSON.stringify(toJson(back.job.doc)) : back.is;
      };
      for (const s of [700, 701, 702]) editor.run(along(s));
      const kept = await job.settled();
      // what is refused is in the next write; the last one of all waits until it is tried again
      expect(kept.state).toBe(n === 3 ? "refused" : "kept");
      expect(await there()).toContain(n === 3 ? '"along":701' : '"along":702');
      await vi.advanceTimersByTimeAsync(3500);
      expect(job.kept()).toEqual({ state: "kept" });
      expect(await there()).toContain('"along":702');
    },
  );

  it.each([
    new DOMException("", "QuotaExceededError"),
    new DOMException(
      "Internal error committing transaction: IO error: No space left on device",
      "UnknownError",
    ),
    new DOMException("Encountered full disk while opening backing store for indexedDB.open.", "UnknownError"),
    new DOMException("", "NS_ERROR_FILE_NO_DEVICE_SPACE"),
    new DOMException("The database or disk is full", "UnknownError"),
    new DOMException("", "NS_ERROR_DOM_INDEXEDDB_QUOTA_ERR"),
  ])("that is full is called that: $name $message", async (error) => {
    const disk = lasting();
    const job = await storeOn({ ...disk, begin: () => Promise.reject(error) }).create(frame());
    onTestFinished(() => job.close());
    expect(job.kept()).toEqual({
      state: "refused",
      why: "Save the job to a file. The storage of this device is full: the last changes are not saved.",
    });
  });

  // Chromium 156 on a disk that was filled up: first the one, then at every further try the other
  it("that is full is called that also where the browser says no more why", async () => {
    vi.useFakeTimers();
    onTestFinished(() => void vi.useRealTimers());
    const errors = [
      "Connection is closing because of: IO error: 000003.log: FILE_ERROR_NO_SPACE (ChromeMethodBFE: 3::WritableFileAppend::8)",
      "Internal error opening backing store for indexedDB.open.",
    ].map((message) => new DOMException(message, "UnknownError"));
    let calls = 0;
    const job = await storeOn({
      ...lasting(),
      begin: () => Promise.reject(errors[Math.min(calls++, 1)]),
    }).create(frame());
    onTestFinished(() => job.close());
    await vi.advanceTimersByTimeAsync(7000);
    expect(calls).toBeGreaterThan(2);
    expect(job.kept()).toMatchObject({ why: expect.stringContaining("device is full") });
  });

  it("that lasts no longer than the page never counts as kept", async () => {
    const job = await storeOn(memoryDisk("Why.")).create(frame());
    onTestFinished(() => job.close());
    expect(job.kept()).toEqual({ state: "memory", why: "Why." });
    editorOf(job.doc).run(along(700));
    expect(await job.settled()).toEqual({ state: "memory", why: "Why." });
  });
});

describe("a database", () => {
  // as Chromium 156 did on a full disk (docs/decisions/keeping.md), and as a user does who clears the page's data
  it("that the browser threw away gets the whole job again with the next edit", async () => {
    const factory = new IDBFactory();
    const store = storeOn(indexedDisk(factory));
    const job = await store.create(frame());
    onTestFinished(() => job.close());
    await new Promise((resolve, reject) => {
      const request = factory.deleteDatabase("tubewright");
      request.onsuccess = resolve;
      request.onerror = reject;
    });
    const editor = editorOf(job.doc);
    editor.run(along(700));
    editor.run(along(701));
    expect(await job.settled()).toEqual({ state: "kept" });
    const back = await storeOn(indexedDisk(factory)).open(job.entry.id);
    expect(back.is === "open" && toJson(back.job.doc)).toEqual(editor.state().document);
  });

  it("that never answers is waited for a while, and every call says so", async () => {
    vi.useFakeTimers();
    onTestFinished(() => void vi.useRealTimers());
    const silent = { open: () => new EventTarget() } as unknown as IDBFactory;
    const store = storeOn(indexedDisk(silent));
    const all = Promise.allSettled([store.list(), store.open("x"), store.delete("x")]);
    const recalled = store.recall("x");
    const created = store.create(frame());
    await vi.advanceTimersByTimeAsync(6000);
    for (const end of await all)
      expect(end).toMatchObject({ status: "rejected", reason: { name: "NoAnswer", seconds: 5 } });
    expect(await recalled).toBeUndefined();
    expect((await created).kept()).toMatchObject({ state: "refused" });
  });

  it("of a newer version is not touched", async () => {
    const factory = new IDBFactory();
    await new Promise((resolve) => {
      const request = factory.open("tubewright", 9);
      request.onsuccess = () => {
        request.result.close();
        resolve(undefined);
      };
    });
    await expect(indexedDisk(factory).opened()).rejects.toMatchObject({ name: "VersionError" });
    expect(await factory.databases()).toEqual([{ name: "tubewright", version: 9 }]);
  });
});
