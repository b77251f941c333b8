import { mkdtempSync, readFileSync, rmSync } from "node:fs";
import { tmpdir } from "node:os";
import { join } from "node:path";
import { setTimeout as sleep } from "node:timers/promises";
import type * as Y from "yjs";
import { compact, openSqlite } from "../src/server/store/index.ts";
import { type JobDocument, rootOf, toJson, valueAt, write } from "../src/shared/index.ts";
import { buildShop, inProcess, isKept, survive } from "../tests/shop/killed.ts";
import { type ShopProcess, shopProcess } from "../tests/shop/process.ts";
import { postgresBin, startPostgres } from "../tests/support/postgres.ts";
import { median, type Row } from "./measure.ts";
import { fill, UPDATES } from "./shop-store.ts";

const demo = JSON.parse(readFileSync("demo/sandling.json", "utf8")) as JobDocument;

/** A shop as a process of its own on a new folder, for as long as the work takes. */
async function inShop<T>(work: (shop: ShopProcess) => Promise<T>, ...more: string[]): Promise<T> {
  const folder = mkdtempSync(join(tmpdir(), "tubewright-bench-"));
  const shop = await shopProcess(folder, more);
  try {
    return await work(shop);
  } finally {
    await shop.stop();
    rmSync(folder, { recursive: true, force: true });
  }
}

const atRank = (list: readonly number[], rank: number): number =>
  [...list].sort((a, b) => a - b)[Math.min(list.length - 1, Math.floor(list.length * rank))] ?? Number.NaN;

const mark = (doc: Y.Doc, key: string): void => write(doc, { ...toJson(doc), order: [key] }, "me");

/** From an edit on one device until it is in the document of another. */
async function toOther(shop: ShopProcess): Promise<number> {
  const a = await inProcess(shop, await shop.pair("a"), "job", demo);
  const b = await inProcess(shop, await shop.pair("b"), "job");
  const times: number[] = [];
  for (let i = 0; i < 220; i++) {
    const key = `n${i}`;
    const came = new Promise<void>((resolve) => {
      const look = (): void => {
        if ((valueAt(b.doc, ["order"]) as string[] | undefined)?.[0] !== key) return;
        b.doc.off("update", look);
        resolve();
      };
      b.doc.on("update", look);
    });
    const start = performance.now();
    mark(a.doc, key);
    await came;
    if (i >= 20) times.push(performance.now() - start);
    await sleep(5);
  }
  a.leave();
  b.leave();
  return median(times);
}

/** 20 devices on one job, 20 changes a second in all: until each of the other 19 has it. */
async function twenty(shop: ShopProcess): Promise<{ readonly p99: number; readonly median: number }> {
  const job = "twenty";
  const devices = [await inProcess(shop, await shop.pair("d0"), job, demo)];
  for (let i = 1; i < 20; i++) devices.push(await inProcess(shop, await shop.pair(`d${i}`), job));
  const sent = new Map<string, number>();
  const times: number[] = [];
  const had = devices.map(() => new Set<string>());
  for (const [n, { doc }] of devices.entries())
    rootOf(doc).observeDeep((events) => {
      const now = performance.now();
      for (const key of events.flatMap((e) => [...e.changes.keys.keys()])) {
        const at = sent.get(key);
        if (at === undefined || had[n]?.has(key)) continue;
        had[n]?.add(key);
        times.push(now - at);
      }
    });
  for (let i = 0; i < 600; i++) {
    const { doc } = devices[i % 20] as (typeof devices)[number];
    const key = `t${i}`;
    const now = toJson(doc) as { tubes: JobDocument };
    sent.set(key, performance.now());
    had[i % 20]?.add(key);
    write(doc, { ...now, tubes: { ...now.tubes, [key]: { od: 40, wall: 2 } } }, "me");
    await sleep(50);
  }
  for (const { share } of devices) await isKept(share);
  await sleep(500);
  for (const device of devices) device.leave();
  if (times.length !== 600 * 19) throw new Error(`${times.length} of ${600 * 19} arrived`);
  return { p99: atRank(times, 0.99), median: median(times) };
}

async function memory(shop: ShopProcess): Promise<number> {
  const cookie = await shop.pair("memory");
  const open = [];
  for (let i = 0; i < 50; i++) {
    const one = await inProcess(shop, cookie, `job-${i}`, { ...demo, name: `Job ${i}` });
    if (i < 10) open.push(one);
    else one.leave();
  }
  await sleep(3000);
  const used = shop.memory();
  for (const one of open) one.leave();
  return used;
}

/** Until a device has a job of 100,000 changes open, after it was compacted. */
async function large(): Promise<number> {
  const folder = mkdtempSync(join(tmpdir(), "tubewright-bench-"));
  const store = await openSqlite(join(folder, ".tubewright", "shop.db"));
  await fill(store);
  await compact(store, "job", []);
  await store.put("job", "job", { name: "large", changed: 1 });
  await store.close();
  const shop = await shopProcess(folder);
  const cookie = await shop.pair("large");
  const start = performance.now();
  const one = await inProcess(shop, cookie, "job");
  const took = performance.now() - start;
  one.leave();
  await shop.stop();
  rmSync(folder, { recursive: true, force: true });
  return took;
}

/** The shop as a process of its own, its devices over real connections on loopback. */
export async function shopRows(): Promise<Row[]> {
  buildShop();
  const other = await inShop(toOther);
  const many = await inShop(twenty);
  return [
    {
      what: "an edit until it is on another screen, median",
      value: other,
      unit: "ms",
      promise: { atMost: 50 },
    },
    { what: "20 devices, 20 edits a second in all: median", value: many.median, unit: "ms" },
    {
      what: "20 devices, 20 edits a second in all: 99 %",
      value: many.p99,
      unit: "ms",
      promise: { atMost: 300 },
    },
    {
      what: "50 jobs, 10 open at once: memory of the shop",
      value: await inShop(memory),
      unit: "MB",
      promise: { atMost: 300 },
    },
    {
      what: `a job of ${UPDATES} changes, compacted: opened by a device`,
      value: await large(),
      unit: "ms",
      promise: { atMost: 1000 },
    },
  ];
}

const ROUNDS = 30;

/** The shop's server, a device, and PostgreSQL under the shop, killed in the middle of changes. */
export async function shopProcessesKilledRows(): Promise<Row[]> {
  buildShop();
  const rows: Row[] = [];
  const add = (what: string, { acknowledged, lost, same }: Awaited<ReturnType<typeof survive>>): void => {
    rows.push(
      {
        what: `${what}, ${ROUNDS} kills: changes acknowledged`,
        value: acknowledged,
        unit: "",
        promise: { atLeast: ROUNDS },
      },
      { what: `${what}: of those lost`, value: lost, unit: "", promise: { atMost: 0 } },
      {
        what: `${what}: devices that see something else`,
        value: same ? 0 : 1,
        unit: "",
        promise: { atMost: 0 },
      },
    );
  };
  add(
    "the server",
    await inShop((shop) =>
      survive(shop, ROUNDS, async () => {
        await shop.kill();
        await shop.restart();
      }),
    ),
  );
  add("a device", await inShop((shop) => survive(shop, ROUNDS, (_, again) => again(0))));
  if (!postgresBin()) return rows;
  const postgres = await startPostgres();
  try {
    add(
      "PostgreSQL",
      await inShop(
        (shop) =>
          survive(shop, ROUNDS, async () => {
            postgres.kill();
            await postgres.start();
          }),
        "--database",
        await postgres.database(),
      ),
    );
  } finally {
    await postgres.remove();
  }
  return rows;
}
