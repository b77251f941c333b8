import { setTimeout as sleep } from "node:timers/promises";
import pg from "pg";
import { afterAll, beforeAll, beforeEach, describe, expect, it } from "vitest";
import { change } from "../../../tests/shop/store-suite.ts";
import { type Postgres, postgresBin, query, startPostgres } from "../../../tests/support/postgres.ts";
import { NotOpened, NotStored, type ShopStore, type Watch } from "./port.ts";
import { openPostgres } from "./postgres.ts";
import { OwnCalls } from "./postgres-own.ts";

const bytes = (...values: number[]): Uint8Array => new Uint8Array(values);

async function until(what: () => boolean): Promise<void> {
  for (let i = 0; !what(); i++) {
    if (i > 1000) throw new Error(`waited in vain: ${what.toString()}`);
    await sleep(20);
  }
}

/** Writes down what a watch is told. */
function heard(): Watch & { readonly list: string[] } {
  const list: string[] = [];
  return {
    list,
    appended: (job, seqs) => list.push(`${job} ${seqs.join(" ")}`),
    changed: (kind, id) => list.push(`${kind} ${id}`),
    lost: () => list.push("lost"),
    back: () => list.push("back"),
  };
}

const why = (call: Promise<unknown>): Promise<string> =>
  call.then(
    () => "done",
    (e: unknown) => (e instanceof NotStored || e instanceof NotOpened ? `${e.name} ${e.why}` : String(e)),
  );

describe.skipIf(!postgresBin())("servers that share a PostgreSQL, where one is installed", () => {
  let postgres: Postgres;
  let url: string;
  let shop: string;
  let made = 0;
  beforeAll(async () => {
    postgres = await startPostgres();
    url = await postgres.database();
  }, 60_000);
  afterAll(() => postgres.remove(), 60_000);
  beforeEach(() => {
    shop = `shop ${++made}`;
  });

  async function two(): Promise<readonly [ShopStore, ShopStore]> {
    return Promise.all([openPostgres(url, shop), openPostgres(url, shop)]);
  }
  const close = (stores: readonly ShopStore[]) => Promise.all(stores.map((s) => s.close()));
  /** Ends connections from outside, as an administrator does. */
  const cut = (which: string) =>
    query(
      url,
      `SELECT pg_terminate_backend(pid) FROM pg_stat_activity WHERE application_name = 'tubewright' AND ${which}`,
    );

  it("tells each what the other did, and nobody what he did himself or what is another shop's", async () => {
    const [a, b] = await two();
    const stranger = await openPostgres(url, `${shop}, another`);
    const [atA, atB, atStranger] = [heard(), heard(), heard()];
    for (const [store, watch] of [
      [a, atA],
      [b, atB],
      [stranger, atStranger],
    ] as const)
      store.watch(watch);
    await a.append([change("x", bytes(1)), change("y", bytes(2)), change("x", bytes(3))]);
    await a.put("device", "d", 1);
    expect(await b.swap("device", "d", 1, 2)).toBe(true);
    expect(await b.swap("device", "d", 1, 3)).toBe(false);
    await a.remove("device", "d");
    await a.remove("device", "d");
    await b.append([change("x", bytes(4))]);
    await until(() => atA.list.length >= 2 && atB.list.length >= 4);
    expect(atB.list.toSorted()).toEqual(["device d", "device d", "x 1 2", "y 1"]);
    expect(atA.list).toEqual(["device d", "x 3"]);
    expect(atStranger.list).toEqual([]);
    expect((await b.fetch("x", [1, 2])).map((c) => c.update)).toEqual([bytes(1), bytes(3)]);
    await close([a, b, stranger]);
  });

  it("shows a job's changes in the order of their numbers, however many append at once", async () => {
    const stores = [...(await two()), ...(await two())];
    let lastSeen = 0;
    let isOver = false;
    const reader = (async () => {
      while (!isOver) {
        const log = (await stores[0]?.history("x", 0, 100_000)) ?? [];
        // what is visible has no gap that could be filled later
        expect(log.map((c) => c.seq)).toEqual(log.map((_, i) => i + 1));
        expect(log.length).toBeGreaterThanOrEqual(lastSeen);
        lastSeen = log.length;
      }
    })();
    await Promise.all(
      stores.flatMap((store, s) =>
        Array.from({ length: 40 }, (_, i) =>
          // two jobs in either order: no batch waits for one that waits for it
          store.append(
            i % 2 === 0
              ? [change("x", bytes(s)), change("z", bytes(i))]
              : [change("z", bytes(i)), change("x", bytes(s))],
          ),
        ),
      ),
    );
    isOver = true;
    await reader;
    expect(await stores[1]?.counts("x")).toEqual({ log: 160, all: 160 });
    await close(stores);
  });

  it("compacts once where two do so at the same moment, and keeps what came meanwhile", async () => {
    const [a, b] = await two();
    const seqs = await a.append(Array.from({ length: 10 }, (_, i) => change("x", bytes(i))));
    const last = seqs.at(-1) as number;
    const done = await Promise.all([
      ...[a, b].map((s) =>
        s.compact("x", 0, { seq: last, at: 1, update: bytes(9) }, [{ ...change("x", bytes(9)), seq: last }]),
      ),
      b.append([change("x", bytes(10))]),
    ]);
    expect(done.filter((d) => d === true)).toHaveLength(1);
    expect((await a.read("x"))?.log.map((c) => c.update[0])).toEqual([10]);
    expect(await a.counts("x")).toEqual({ log: 1, all: 2 });
    await close([a, b]);
  });

  it("says lost and back once each when its listening breaks, also when all connections do", async () => {
    const [a, b] = await two();
    const atA = heard();
    a.watch(atA);
    for (const which of ["query LIKE 'LISTEN%'", "true"]) {
      await cut(which);
      await until(() => atA.list.includes("back"));
      // an idle connection may have broken unnoticed; the call says so and the next one goes on a new one
      await why(b.append([change("x", bytes(1))]));
      atA.list.splice(0, atA.list.length, ...atA.list.filter((l) => l === "lost" || l === "back"));
      expect(atA.list).toEqual(["lost", "back"]);
      atA.list.length = 0;
      await b.append([change("x", bytes(2))]);
      await until(() => atA.list.length > 0);
      atA.list.length = 0;
    }
    await close([a, b]);
    expect(await connections()).toBe(0);
  });

  const connections = async (): Promise<number> => {
    await sleep(100);
    const [row] = await query(
      url,
      "SELECT count(*)::int AS n FROM pg_stat_activity WHERE application_name = 'tubewright'",
    );
    return (row as { n: number }).n;
  };

  it("goes on after an outage, says unreachable meanwhile, and takes no more connections than before", async () => {
    const [a, b] = await two();
    const atA = heard();
    a.watch(atA);
    await a.append([change("x", bytes(1))]);
    postgres.kill();
    await until(() => atA.list.includes("lost"));
    const calls = [
      a.append([change("x", bytes(2))]),
      a.put("job", "x", 1),
      a.purge("x"),
      a.read("x"),
      a.all("job"),
    ].map(why);
    for (const answer of await Promise.all(calls)) expect(answer).toBe("NotStored unreachable");
    expect(await why(openPostgres(url, shop))).toBe("NotOpened unreachable");
    const late = heard();
    a.watch(late);
    expect(late.list).toEqual(["lost"]);
    await sleep(1500);
    await postgres.start();
    await until(() => atA.list.includes("back"));
    expect(atA.list).toEqual(["lost", "back"]);
    expect((await a.read("x"))?.log.map((c) => c.update[0])).toEqual([1]);
    await a.append([change("x", bytes(3))]);
    await Promise.all(Array.from({ length: 30 }, () => a.read("x")));
    expect(await connections()).toBeLessThanOrEqual(10);
    await close([a, b]);
  });

  it("counts its own change as another's when the answer was lost", () => {
    const delivered: number[] = [];
    const own = new OwnCalls("me", (told) => delivered.push(told.call));
    const say = (server: string, call: number) =>
      own.hear(JSON.stringify({ server, call, job: "x", first: 1, last: 1 }));
    const unsure = () => true;
    return (async () => {
      await own.make(async (n) => say("me", n), unsure);
      say("me", 1);
      expect(delivered).toEqual([]);
      const broken = own.make(async (n) => {
        say("me", n);
        throw new Error("cut");
      }, unsure);
      await expect(broken).rejects.toThrow("cut");
      expect(delivered).toEqual([2]);
      await expect(own.make(() => Promise.reject(new Error("cut")), unsure)).rejects.toThrow("cut");
      say("me", 3);
      expect(delivered).toEqual([2, 3]);
      await expect(
        own.make(
          () => Promise.reject(new Error("full")),
          () => false,
        ),
      ).rejects.toThrow("full");
      say("me", 4);
      say("other", 4);
      for (const rubbish of ["", "null", "{", '{"server":1}']) own.hear(rubbish);
      expect(delivered).toEqual([2, 3, 4]);
    })();
  });

  it("commits to the disk though the database's default is not to", async () => {
    const lax = await postgres.database();
    await query(lax, `ALTER DATABASE ${new URL(lax).pathname.slice(1)} SET synchronous_commit = off`);
    const client = new pg.Client({ connectionString: lax });
    await client.connect();
    const store = await openPostgres(lax, shop);
    await store.append([change("x", bytes(1))]);
    // each commit that returns has its place in the log flushed
    const { rows } = await client.query(
      "SELECT pg_current_wal_flush_lsn() >= pg_current_wal_insert_lsn() AS flushed",
    );
    expect(rows).toEqual([{ flushed: true }]);
    await client.end();
    await store.close();
  });

  it("leaves tables of a newer program alone", async () => {
    const newer = await postgres.database();
    await (await openPostgres(newer, shop)).close();
    await query(newer, "UPDATE shop_schema SET version = 2");
    expect(await why(openPostgres(newer, shop))).toBe("NotOpened newer");
    expect(await why(openPostgres(newer.replace(/\/d\d+$/, "/nowhere"), shop))).toBe("NotOpened other");
  });
});
