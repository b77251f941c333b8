import { mkdtemp, rm } from "node:fs/promises";
import { tmpdir } from "node:os";
import { join } from "node:path";
import * as Y from "yjs";
import { compact, openPostgres, openSqlite, type ShopStore } from "../src/server/store/index.ts";
import { killPostgres, killSqlite, type Rounds } from "../tests/shop/rounds.ts";
import { postgresBin, startPostgres } from "../tests/support/postgres.ts";
import { consume, median, type Row } from "./measure.ts";

export const UPDATES = 100_000;
/** One every two seconds: a week of long days, three devices. */
const EVERY = 2_000;

/** 100,000 changes of three devices to 200 bars, as the shop would have them. */
export async function fill(store: ShopStore): Promise<void> {
  const doc = new Y.Doc();
  const bars = doc.getMap<Y.Map<unknown>>("bars");
  let batch: Parameters<ShopStore["append"]>[0][number][] = [];
  doc.on("update", (update: Uint8Array) => {
    const n = batch.length + sent;
    batch.push({ job: "job", device: `d${n % 3}`, at: 1_770_000_000_000 + n * EVERY, seen: 0, update });
  });
  let sent = 0;
  for (let i = 0; i < UPDATES; i++) {
    const id = `bar-${(i * 7) % 200}`;
    doc.transact(() => {
      const bar = bars.get(id) ?? bars.set(id, new Y.Map());
      bar.set(["path", "landing", "progress"][i % 3] as string, [[i % 997, 12.5, 3]]);
    });
    if (batch.length < 500) continue;
    await store.append(batch);
    sent += batch.length;
    batch = [];
  }
  await store.append(batch);
}

/** Reads a job and makes its document of it: what opening it takes, milliseconds. */
async function open(store: ShopStore): Promise<number> {
  const start = performance.now();
  const kept = await store.read("job");
  const doc = new Y.Doc();
  doc.transact(() => {
    for (const { update } of [...(kept?.base ? [kept.base] : []), ...(kept?.log ?? [])])
      Y.applyUpdate(doc, update);
  });
  consume(doc.getMap("bars").size);
  return performance.now() - start;
}

/** The longest time in which nothing else was answered while `work` ran, milliseconds. */
async function longestBlock(work: () => Promise<unknown>): Promise<number> {
  let [last, longest] = [performance.now(), 0];
  const beat = setInterval(() => {
    const now = performance.now();
    longest = Math.max(longest, now - last);
    last = now;
  }, 1);
  await work();
  longest = Math.max(longest, performance.now() - last);
  clearInterval(beat);
  return longest;
}

async function rowsOf(name: string, store: ShopStore): Promise<Row[]> {
  await fill(store);
  const before = await open(store);
  const start = performance.now();
  const blocked = await longestBlock(() => compact(store, "job", []));
  const took = performance.now() - start;
  const times: number[] = [];
  for (let i = 0; i < 5; i++) times.push(await open(store));
  const commits: number[] = [];
  for (let i = 0; i < 200; i++) {
    const began = performance.now();
    await store.append([{ job: "other", device: "d", at: i, seen: 0, update: new Uint8Array(2_000) }]);
    commits.push(performance.now() - began);
  }
  const { all } = await store.counts("job");
  const row = (what: string, value: number, unit: string) => ({ what: `${name}: ${what}`, value, unit });
  return [
    row("100,000 changes, opened before compaction", before, "ms"),
    row("compacting them", took, "ms"),
    row("the longest that other jobs wait for it", blocked, "ms"),
    row("changes in the history after it", all, ""),
    { ...row("100,000 changes, opened after compaction", median(times), "ms"), promise: { atMost: 1_000 } },
    row("one change of 2 kB stored", median(commits), "ms"),
  ];
}

export async function shopStoreRows(): Promise<Row[]> {
  const folder = await mkdtemp(join(tmpdir(), "tubewright-bench-"));
  const sqlite = await openSqlite(join(folder, "shop.db"));
  const rows = await rowsOf("SQLite", sqlite);
  await sqlite.close();
  await rm(folder, { recursive: true });
  if (!postgresBin()) return rows;
  const postgres = await startPostgres();
  const store = await openPostgres(await postgres.database(), "shop");
  rows.push(...(await rowsOf("PostgreSQL", store)));
  await store.close();
  await postgres.remove();
  return rows;
}

/** kill -9, 30 times each, in the middle of appends. */
export async function shopKilledRows(): Promise<Row[]> {
  const rows = (name: string, { acked, lost, torn, damaged }: Rounds): Row[] => [
    { what: `${name}, 30 times kill -9: changes acknowledged`, value: acked, unit: "" },
    { what: `${name}: acknowledged and not there`, value: lost, unit: "", promise: { atMost: 0 } },
    { what: `${name}: torn`, value: torn, unit: "", promise: { atMost: 0 } },
    { what: `${name}: damaged databases`, value: damaged, unit: "", promise: { atMost: 0 } },
  ];
  const sqlite = rows("SQLite", await killSqlite(30));
  return postgresBin() ? [...sqlite, ...rows("PostgreSQL", await killPostgres(30))] : sqlite;
}
