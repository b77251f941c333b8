import { mkdtemp, rm } from "node:fs/promises";
import { tmpdir } from "node:os";
import { join } from "node:path";
import { setTimeout as sleep } from "node:timers/promises";
import { afterAll, beforeAll, describe, expect, it } from "vitest";
import * as Y from "yjs";
import { change, storeSuite } from "../../../tests/shop/store-suite.ts";
import { type Postgres, postgresBin, startPostgres } from "../../../tests/support/postgres.ts";
import { seeded } from "../../core/numeric/index.ts";
import { compact } from "./compaction.ts";
import { type Faults, faulty } from "./faulty.ts";
import { NotStored, type ShopStore, type Stored } from "./port.ts";
import { openPostgres } from "./postgres.ts";
import { openSqlite } from "./sqlite.ts";

const HARD: Faults = { refuse: 0.15, tear: 0.15, twice: 0.4, wait: 3 };
const NONE: Faults = { refuse: 0, tear: 0, twice: 0, wait: 2 };

async function place() {
  const folder = await mkdtemp(join(tmpdir(), "tubewright-faulty-"));
  return { path: join(folder, "shop.db"), clear: () => rm(folder, { recursive: true }) };
}

storeSuite("a store that waits", async () => {
  const { path, clear } = await place();
  return { open: async () => faulty(await openSqlite(path), seeded(1), NONE), clear };
});

/** Does it until it is done, as a device sends again; counts the tries. */
async function untilDone<T>(work: () => Promise<T>): Promise<T> {
  for (;;) {
    try {
      return await work();
    } catch (error) {
      if (!(error instanceof NotStored)) throw error;
    }
  }
}

/** The document's updates are sent in order, each until it is acknowledged; then what the store has is the document. */
async function work(store: ShopStore, seed: number): Promise<void> {
  const random = seeded(seed);
  const doc = new Y.Doc();
  const [updates, acked]: [Uint8Array[], number[]] = [[], []];
  doc.on("update", (update: Uint8Array) => updates.push(update));
  for (let i = 0; i < 120; i++) {
    const bars = doc.getMap("bars");
    if (random() < 0.2) bars.delete(`${Math.floor(random() * 9)}`);
    else bars.set(`${Math.floor(random() * 9)}`, i);
    const sent = updates.splice(0).map((update) => change("job", update, { at: i * 60_000 }));
    if (sent.length > 0) acked.push(...(await untilDone(() => store.append(sent))));
    if (i % 25 === 24) await untilDone(() => compact(store, "job", []));
  }
  const kept = await untilDone(() => store.read("job"));
  const copy = new Y.Doc();
  for (const { update } of [...(kept?.base ? [kept.base] : []), ...(kept?.log ?? [])])
    Y.applyUpdate(copy, update);
  expect(copy.getMap("bars").toJSON()).toEqual(doc.getMap("bars").toJSON());
  expect(acked).toEqual(acked.toSorted((a, b) => a - b));
  const past = new Y.Doc();
  for (const { update } of await untilDone(() => store.history("job", 0, 10_000)))
    Y.applyUpdate(past, update);
  expect(past.getMap("bars").toJSON()).toEqual(doc.getMap("bars").toJSON());
}

describe("a store that refuses and loses answers", () => {
  it.each([1, 2, 3])(
    "has in the end what was acknowledged and sent again, over SQLite (seed %i)",
    async (seed) => {
      const { path, clear } = await place();
      const store = faulty(await openSqlite(path), seeded(100 + seed), HARD);
      await work(store, seed);
      await store.close();
      await clear();
    },
  );

  it("does nothing where it says full or other, and lets at most one use a code", async () => {
    const { path, clear } = await place();
    const inner = await openSqlite(path);
    const store = faulty(inner, seeded(9), { ...HARD, wait: 0 });
    let [count, refusals] = [0, 0];
    for (let i = 0; i < 200; i++) {
      const why = await store.append([change("job", new Uint8Array([i]))]).then(
        () => "stored",
        (e: unknown) => (e as NotStored).why,
      );
      const { all } = await inner.counts("job");
      if (why === "stored") expect(all).toBe(count + 1);
      else if (why !== "unreachable") expect(all).toBe(count);
      if (why !== "stored") refusals++;
      count = all;
    }
    expect(refusals).toBeGreaterThan(20);
    await inner.put("code", "c", "fresh");
    const used = await Promise.all(
      Array.from({ length: 50 }, () => store.swap("code", "c", "fresh", "used").catch(() => false)),
    );
    expect(used.filter(Boolean).length).toBeLessThanOrEqual(1);
    await store.close();
    await clear();
  });
});

describe.skipIf(!postgresBin())("two servers over a PostgreSQL that does so, where one is installed", () => {
  let postgres: Postgres;
  beforeAll(async () => {
    postgres = await startPostgres();
  }, 60_000);
  afterAll(() => postgres.remove(), 60_000);

  it("has in the end what was acknowledged and sent again", async () => {
    const store = faulty(await openPostgres(await postgres.database(), "shop"), seeded(7), HARD);
    await work(store, 4);
    await store.close();
  });

  it("tells all of what the other did, late, twice and in any order, and all of it can be fetched", async () => {
    const url = await postgres.database();
    const a = await openPostgres(url, "shop");
    const b = faulty(await openPostgres(url, "shop"), seeded(5), {
      refuse: 0,
      tear: 0,
      twice: 0.5,
      wait: 50,
    });
    const got = new Map<number, Stored>();
    const order: number[] = [];
    b.watch({
      appended: (job, seqs) => {
        order.push(...seqs);
        void b.fetch(job, seqs).then((all) => {
          for (const c of all) got.set(c.seq, c);
        });
      },
      changed: () => undefined,
      lost: () => undefined,
      back: () => undefined,
    });
    for (let i = 0; i < 40; i++)
      await a.append([change("job", new Uint8Array([i])), change("job", new Uint8Array([i, i]))]);
    for (let i = 0; got.size < 80 && i < 500; i++) await sleep(20);
    expect([...got.keys()].toSorted((x, y) => x - y)).toEqual(Array.from({ length: 80 }, (_, i) => i + 1));
    expect(order.length).toBeGreaterThan(80);
    expect(order).not.toEqual(order.toSorted((x, y) => x - y));
    await Promise.all([a.close(), b.close()]);
  });
});
