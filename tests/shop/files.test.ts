import { existsSync, mkdtempSync, readdirSync, readFileSync, rmSync, writeFileSync } from "node:fs";
import { tmpdir } from "node:os";
import { join } from "node:path";
import { expect, it, onTestFinished, vi } from "vitest";
import * as Y from "yjs";
import { type Files, filesIn } from "../../src/server/hub/files.ts";
import { folderOf } from "../../src/server/hub/folder.ts";
import { type Jobs, jobsOf } from "../../src/server/hub/jobs.ts";
import { queueTo } from "../../src/server/hub/queue.ts";
import { begin } from "../../src/server/hub/records.ts";
import { fromJson, type JobDocument, jobText, toJson, write } from "../../src/shared/index.ts";
import { MemoryStore } from "./memory-store.ts";

const demo = JSON.parse(readFileSync("demo/sandling.json", "utf8")) as JobDocument;
const until = (what: () => void | Promise<void>) => vi.waitFor(what, { timeout: 10_000, interval: 10 });

interface Shop {
  readonly folder: string;
  readonly store: MemoryStore;
  readonly jobs: Jobs;
  readonly files: Files;
  readonly news: string[];
}

async function shopIn(folder: string, store = new MemoryStore()): Promise<Shop> {
  const news: string[] = [];
  const jobs = jobsOf({
    store,
    nameOf: async (id) => id,
    queue: queueTo(store),
    now: Date.now,
    changed: (job) => files.changed(job.id),
  });
  const files: Files = filesIn({
    folder: folderOf(folder),
    store,
    jobs,
    now: Date.now,
    news: (of) => news.push(of),
    quiet: 20,
  });
  await files.start();
  return { folder, store, jobs, files, news };
}

function temporary(): string {
  const folder = mkdtempSync(join(tmpdir(), "tubewright-shop-"));
  onTestFinished(() => rmSync(folder, { recursive: true, force: true }));
  return folder;
}

const put = (folder: string, name: string, job: unknown): void =>
  writeFileSync(join(folder, name), typeof job === "string" ? job : jobText(job as JobDocument));
const text = (folder: string, name: string): string => readFileSync(join(folder, name), "utf8");
const read = (folder: string, name: string): JobDocument => JSON.parse(text(folder, name)) as JobDocument;
const idsOf = async ({ store }: Shop): Promise<readonly string[]> => [...(await store.all("job")).keys()];

async function edit({ jobs }: Shop, id: string, change: (job: JobDocument) => JobDocument): Promise<void> {
  const copy = new Y.Doc();
  Y.applyUpdate(copy, Y.encodeStateAsUpdate((await jobs.get(id)).doc));
  const before = Y.encodeStateVector(copy);
  write(copy, change(toJson(copy)), "edit");
  const fate = await jobs.commit(
    id,
    { device: "pc", name: "Shop PC", seen: 0 },
    Y.encodeStateAsUpdate(copy, before),
  );
  expect(fate).toHaveProperty("seq");
}

it("a file of the folder becomes a job, and stays as its owner wrote it", async () => {
  const folder = temporary();
  const own = JSON.stringify(demo, null, 4);
  put(folder, "sandling.json", own);
  const shop = await shopIn(folder);
  const [id = ""] = await idsOf(shop);
  expect(toJson((await shop.jobs.get(id)).doc)).toEqual(demo);
  expect((await shop.store.get("job", id)) as object).toMatchObject({
    name: demo.name,
    file: "sandling.json",
  });
  await shop.files.close();
  expect(text(folder, "sandling.json")).toBe(own);
});

it("a job of a device gets a file by its name, and the file follows every change", async () => {
  const shop = await shopIn(temporary());
  const first = { ...demo, name: "Hill climb, Öst / 2" };
  await begin(shop.store, "j1", 1);
  await shop.jobs.commit("j1", { device: "pc", name: "PC", seen: 0 }, Y.encodeStateAsUpdate(fromJson(first)));
  await until(() => expect(read(shop.folder, "hill-climb-öst-2.json")).toEqual(first));
  await edit(shop, "j1", (job) => ({ ...job, name: "Another name" }));
  await until(() => expect(read(shop.folder, "hill-climb-öst-2.json").name).toBe("Another name"));
  // a second of the same name does not take its file
  await begin(shop.store, "j2", 1);
  await shop.jobs.commit("j2", { device: "pc", name: "PC", seen: 0 }, Y.encodeStateAsUpdate(fromJson(first)));
  await until(() => expect(read(shop.folder, "hill-climb-öst-2-2.json").name).toBe(first.name));
  expect(readdirSync(shop.folder).filter((n) => n.endsWith(".part"))).toEqual([]);
  await shop.files.close();
});

it("a file that another hand changes is taken in as a change; what devices changed meanwhile stays", async () => {
  const folder = temporary();
  put(folder, "a.json", demo);
  const shop = await shopIn(folder);
  const [id = ""] = await idsOf(shop);
  // the device's change is in the job and not yet in the file that the other hand writes
  const bars = demo.bars as Record<string, JobDocument>;
  const renamed = { ...demo, name: "by another hand" };
  await edit(shop, id, (job) => ({
    ...job,
    bars: { ...bars, "main-hoop": { ...bars["main-hoop"], label: "by a device" } },
  }));
  put(folder, "a.json", renamed);
  await shop.files.look();
  await until(async () => {
    const job = toJson((await shop.jobs.get(id)).doc) as { name: string; bars: Record<string, JobDocument> };
    expect(job.name).toBe("by another hand");
    expect(job.bars["main-hoop"]?.label).toBe("by a device");
    expect(read(folder, "a.json")).toEqual(job);
  });
  const changes = await shop.store.history(id, 0, 100);
  expect(changes.map((c) => c.device)).toEqual(["folder", "pc", "folder"]);
  await shop.files.close();
});

it("a file that does not pass is left as it is and said; it is taken in when it passes", async () => {
  const folder = temporary();
  put(folder, "a.json", demo);
  const shop = await shopIn(folder);
  const [id = ""] = await idsOf(shop);
  const broken = jobText(demo).replace('"tubewright job"', '"no job"');
  put(folder, "a.json", broken);
  await shop.files.look();
  expect(shop.files.notices().map((n) => n.text)).toEqual([
    expect.stringMatching(/^Mend "a\.json" in the shop's folder: .*format/),
  ]);
  expect(shop.news).toContain("notices");
  await edit(shop, id, (job) => ({ ...job, name: "goes on" }));
  await new Promise((resolve) => setTimeout(resolve, 200));
  expect(text(folder, "a.json")).toBe(broken);
  put(folder, "a.json", { ...demo, show: { length: "in", fraction: 16 } });
  await shop.files.look();
  await until(() =>
    expect(read(folder, "a.json")).toMatchObject({ name: "goes on", show: { length: "in", fraction: 16 } }),
  );
  expect(shop.files.notices()).toEqual([]);
  await shop.files.close();
});

it("changed while the shop was shut: taken in at the next start, with what was not written yet", async () => {
  const folder = temporary();
  put(folder, "a.json", demo);
  const before = await shopIn(folder);
  const [id = ""] = await idsOf(before);
  await before.files.close();
  // a change that a killed server never wrote to the file
  const killed = jobsOf({
    store: before.store,
    nameOf: async (id) => id,
    queue: queueTo(before.store),
    now: Date.now,
    changed: () => {},
  });
  await edit({ ...before, jobs: killed }, id, (job) => ({ ...job, show: { length: "in", fraction: 32 } }));
  put(folder, "a.json", { ...demo, name: "by night" });
  const after = await shopIn(folder, before.store);
  await until(() =>
    expect(read(folder, "a.json")).toMatchObject({ name: "by night", show: { length: "in", fraction: 32 } }),
  );
  expect(await idsOf(after)).toEqual([id]);
  await after.files.close();
});

it("a deleted job's file goes out of the way, and comes back with the job", async () => {
  const folder = temporary();
  put(folder, "a.json", demo);
  const shop = await shopIn(folder);
  const [id = ""] = await idsOf(shop);
  const record = (await shop.store.get("job", id)) as JobDocument;
  await shop.store.put("job", id, { ...record, deleted: 1 });
  await shop.files.listed(id);
  expect(existsSync(join(folder, "a.json"))).toBe(false);
  expect(read(folder, ".tubewright/deleted/a.json").name).toBe(demo.name);
  await shop.store.put("job", id, record);
  await shop.files.listed(id);
  const back = readdirSync(folder).filter((n) => n.endsWith(".json"));
  expect(back).toHaveLength(1);
  expect(read(folder, back[0] ?? "")).toEqual(demo);
  await shop.files.close();
});

it("no path outside the folder: what notes say of one counts for nothing", async () => {
  const folder = temporary();
  const shop = await shopIn(folder);
  await begin(shop.store, "j1", 1);
  await shop.jobs.commit("j1", { device: "pc", name: "PC", seen: 0 }, Y.encodeStateAsUpdate(fromJson(demo)));
  await until(() => expect(readdirSync(folder).some((n) => n.endsWith(".json"))).toBe(true));
  await shop.files.close();
  const notes = join(folder, ".tubewright", "files.json");
  writeFileSync(notes, JSON.stringify({ j1: { file: "../outside.json", digest: "", seq: 0 } }));
  const again = await shopIn(folder, shop.store);
  await edit(again, "j1", (job) => ({ ...job, name: "x" }));
  await again.files.close();
  expect(existsSync(join(folder, "..", "outside.json"))).toBe(false);
});
