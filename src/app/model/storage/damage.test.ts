import "fake-indexeddb/auto";
import { IDBFactory, IDBIndex, IDBObjectStore } from "fake-indexeddb";
import { describe, expect, it, onTestFinished } from "vitest";
import * as Y from "yjs";
import { editorOf, fromJson, nameJob, toJson } from "../document/index.ts";
import { demo, frame } from "../document/testing.ts";
import { indexedDisk } from "./indexed.ts";
import type { Damaged, KeptJob, Opened } from "./port.ts";
import { storeOn } from "./store.ts";

/** Three jobs, "bad" the middle one, and a way to write into the database behind the program's back. */
async function device() {
  const factory = new IDBFactory();
  const ids = ["first", "bad", "last"];
  const next = ids.values();
  let tick = 1000;
  const store = storeOn(indexedDisk(factory), { newId: () => next.next().value!, now: () => tick++ });
  for (const document of [frame(), demo(), { ...frame(), name: "Last" }]) {
    const job = await store.create(document);
    editorOf(job.doc).run(nameJob(`${document.name}, renamed`));
    await job.close();
  }
  const behind = (work: (of: (name: string) => globalThis.IDBObjectStore) => void): Promise<void> =>
    new Promise((resolve) => {
      const request = factory.open("tubewright");
      request.onsuccess = () => {
        const transaction = request.result.transaction(["jobs", "updates", "device"], "readwrite");
        work((name) => transaction.objectStore(name) as never);
        transaction.oncomplete = () => resolve();
      };
    });
  return { factory, behind, again: () => storeOn(indexedDisk(factory)) };
}

const job = (opened: Opened): KeptJob => (opened.is === "open" ? opened.job : expect.fail(opened.is));
const damage = (opened: Opened): Damaged =>
  opened.is === "damaged" ? opened.damaged : expect.fail(opened.is);

/** The keys of the damaged job's updates: the first creates it, the second renames it. */
const FIRST = 3;
const SECOND = 4;

describe("one unreadable record", () => {
  it.each([
    ["an entry without anything", { id: "bad" }],
    ["an entry of other things", { id: "bad", name: 7, changed: "yesterday", file: 3 }],
    ["a date that is none", { id: "bad", name: "x", changed: Number.NaN }],
    ["a date that no calendar has", { id: "bad", name: "x", changed: 1e300 }],
    ["a file that is none", { id: "bad", name: "x", changed: 1, file: null }],
  ])("never hides the others, and the job opens where its updates are whole: %s", async (_, entry) => {
    const { behind, again } = await device();
    await behind((of) => void of("jobs").put(entry));
    const list = await again().list();
    expect(list.map((e) => e.id).sort()).toEqual(["bad", "first", "last"]);
    expect(list.every((e) => typeof e.name === "string" && new Date(e.changed).getTime() >= 0)).toBe(true);
    expect(toJson(job(await again().open("bad")).doc).name).toBe(`${demo().name}, renamed`);
    expect(toJson(job(await again().open("last")).doc).name).toBe("Last, renamed");
  });

  it("a job whose entry is missing is listed all the same; one that was deleted is not", async () => {
    const { behind, again } = await device();
    await behind((of) => void of("jobs").delete("bad"));
    await again().delete("first");
    // as if another window had written to it at the same moment
    await behind((of) => void of("updates").add({ job: "first", update: new Uint8Array(2) }));
    const store = again();
    expect((await store.list()).map((e) => e.id).sort()).toEqual(["bad", "last"]);
    const back = job(await store.open("bad"));
    editorOf(back.doc).run(nameJob("back"));
    await back.close();
    expect((await again().list())[0]).toMatchObject({ id: "bad", name: "back" });
    await store.delete("bad");
    expect((await store.list()).map((e) => e.id)).toEqual(["last"]);
  });

  it("that the browser itself cannot read spoils no other", async () => {
    const { behind, again } = await device();
    await behind((of) => void of("updates").put({ job: "bad", update: new Uint8Array(1) }, SECOND));
    const broken = () => {
      throw new DOMException("Failed to read large IndexedDB value", "NotReadableError");
    };
    // as Chromium does it where one value of several is lost
    const { getAll } = IDBObjectStore.prototype;
    const ofIndex = IDBIndex.prototype.getAll;
    const { get } = IDBObjectStore.prototype;
    IDBObjectStore.prototype.getAll = broken as typeof getAll;
    IDBIndex.prototype.getAll = broken as typeof ofIndex;
    IDBObjectStore.prototype.get = function (this: globalThis.IDBObjectStore, key: never) {
      const request = get.call(this, key);
      const isLost = key === SECOND && this.name === "updates";
      if (isLost) Object.defineProperty(request, "result", { get: broken });
      return request;
    } as typeof get;
    onTestFinished(() => {
      IDBObjectStore.prototype.getAll = getAll;
      IDBIndex.prototype.getAll = ofIndex;
      IDBObjectStore.prototype.get = get;
    });
    expect((await again().list()).map((e) => e.id).sort()).toEqual(["bad", "first", "last"]);
    expect(toJson(job(await again().open("first")).doc)).toMatchObject({ name: "Trial frame, renamed" });
  });
});

describe("a damaged job", () => {
  const bytes = (...list: number[]) => new Uint8Array(list);
  it.each([
    ["bytes that end too soon", { job: "bad", update: bytes(1) }, "its bytes are damaged"],
    [
      "bytes of text",
      { job: "bad", update: new TextEncoder().encode('{ "job": 7 }') },
      "its bytes are damaged",
    ],
    ["no bytes", { job: "bad", update: "text" }, "it is not stored as bytes"],
    ["nothing", { job: "bad" }, "it is not stored as bytes"],
  ])("offers what can be read of it, and its raw record: %s", async (_, update, why) => {
    const { behind, again } = await device();
    await behind((of) => void of("updates").put(update, SECOND));
    const found = damage(await again().open("bad"));
    expect(found.lines).toEqual([`Change 2 of 2 in its record cannot be read: ${why}.`]);
    expect(found.entry).toMatchObject({ id: "bad", name: `${demo().name}, renamed` });
    // what came before the rename, whole
    expect(found.document).toEqual(demo());
    const raw = JSON.parse(found.raw);
    expect(raw).toMatchObject({ format: "tubewright raw record", entry: { id: "bad" } });
    const first = Uint8Array.from(atob(raw.updates[0].base64 ?? raw.updates[0]), (c) => c.charCodeAt(0));
    const doc = new Y.Doc();
    Y.applyUpdate(doc, first);
    expect(toJson(doc)).toEqual(demo());
    expect(raw.updates).toHaveLength(2);
    // its record was not touched
    expect(damage(await again().open("bad"))).toEqual(found);
    expect(toJson(job(await again().open("first")).doc).name).toBe("Trial frame, renamed");
  });

  it("whose first update is lost says that nothing can be read, and still gives the record", async () => {
    const { behind, again } = await device();
    await behind((of) => void of("updates").delete(FIRST));
    const found = damage(await again().open("bad"));
    expect(found.lines).toEqual([
      "Some changes cannot be put in place: one that they build on is missing.",
      "Nothing of the job can be read.",
    ]);
    expect(found.document).toBeUndefined();
    expect(JSON.parse(found.raw).updates).toHaveLength(1);
  });

  it("of which only the entry is left says so", async () => {
    const { behind, again } = await device();
    await behind((of) => {
      for (const key of [FIRST, SECOND]) of("updates").delete(key);
    });
    const found = damage(await again().open("bad"));
    expect(found.lines).toContain("Its record has a name and nothing else.");
    expect(found.entry.name).toBe(`${demo().name}, renamed`);
  });

  it("with very many bad updates is read in a few rounds", async () => {
    const { behind, again } = await device();
    await behind((of) => {
      for (let i = 0; i < 3000; i++) of("updates").add({ job: "bad", update: bytes(i % 251, 255, 255) });
    });
    const began = performance.now();
    const found = damage(await again().open("bad"));
    expect(found.document).toMatchObject({ name: `${demo().name}, renamed` });
    expect(found.lines).toHaveLength(3000);
    expect(performance.now() - began).toBeLessThan(5000);
  });

  it("whose document is made of other parts than a job says so", async () => {
    const { behind, again } = await device();
    const other = new Y.Doc();
    other.getMap("job").set("", 7);
    await behind((of) => {
      for (const key of [FIRST, SECOND]) of("updates").delete(key);
      of("updates").add({ job: "bad", update: Y.encodeStateAsUpdate(other) });
    });
    expect(damage(await again().open("bad")).lines).toEqual(["What the record holds is not a job."]);
  });

  it("is not written to, and not tidied up", async () => {
    const { behind, again } = await device();
    const doc = fromJson(demo());
    await behind((of) => {
      for (let i = 0; i < 250; i++) of("updates").add({ job: "bad", update: Y.encodeStateAsUpdate(doc) });
      of("updates").add({ job: "bad", update: bytes(1) });
    });
    damage(await again().open("bad"));
    expect(JSON.parse(damage(await again().open("bad")).raw).updates).toHaveLength(253);
  });
});
