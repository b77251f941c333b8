import { mkdtemp, rm } from "node:fs/promises";
import { tmpdir } from "node:os";
import { join } from "node:path";
import { Database } from "../../src/server/store/database.ts";
import { openPostgres, openSqlite } from "../../src/server/store/index.ts";
import { startPostgres } from "../support/postgres.ts";
import { lost, startWriter } from "./killing.ts";

/** What came of some rounds of kill -9. */
export interface Rounds {
  readonly acked: number;
  readonly lost: number;
  readonly torn: number;
  /** What SQLite's own check says of each round, or how PostgreSQL started. */
  readonly damaged: number;
}

/** A moment in the middle of the appends, another one each round. */
const after = (round: number): number => 5 + ((round * 37) % 60);

/** kill -9 of the process that has the store open, so many times, all into one file. */
export async function killSqlite(rounds: number): Promise<Rounds> {
  const folder = await mkdtemp(join(tmpdir(), "tubewright-killed-"));
  const path = join(folder, ".tubewright", "shop.db");
  const all = new Map<number, number>();
  const sum = { torn: 0, lost: 0, damaged: 0 };
  try {
    for (let round = 0; round < rounds; round++) {
      const writer = await startWriter("sqlite", path, "job");
      await writer.until(() => writer.acked.size >= after(round));
      await writer.kill();
      for (const [seq, n] of writer.acked) all.set(seq, n);
      const store = await openSqlite(path);
      const found = await lost(store, "job", all);
      await store.close();
      sum.lost += found.lost;
      sum.torn += found.torn;
      const check = new Database(path, 1000);
      if (check.rows("PRAGMA integrity_check")[0]?.[0] !== "ok") sum.damaged++;
      check.close();
    }
    return { acked: all.size, ...sum };
  } finally {
    await rm(folder, { recursive: true });
  }
}

/** kill -9 of the postmaster while a process appends, which goes on by itself when the database is back. */
export async function killPostgres(rounds: number): Promise<Rounds> {
  const postgres = await startPostgres();
  try {
    const url = await postgres.database();
    const writer = await startWriter("postgres", url, "job");
    const sum = { torn: 0, lost: 0, damaged: 0 };
    // each round looks at what is new, the end at all: the writer goes on meanwhile
    const look = async (from: number) => {
      const acked = new Map(writer.acked);
      const store = await openPostgres(url, "shop");
      const found = await lost(store, "job", acked, from);
      await store.close();
      sum.lost += found.lost;
      sum.torn += found.torn;
      return [...acked.keys()].at(-1) ?? 0;
    };
    let seen = 0;
    for (let round = 0; round < rounds; round++) {
      const [acks, refusals] = [writer.acked.size, writer.refused.length];
      await writer.until(() => writer.acked.size >= acks + after(round));
      postgres.kill();
      await writer.until(() => writer.refused.length > refusals);
      await postgres.start();
      seen = await look(seen);
    }
    const end = writer.acked.size;
    await writer.until(() => writer.acked.size > end);
    await writer.kill();
    await look(0);
    return { acked: writer.acked.size, ...sum };
  } finally {
    await postgres.remove();
  }
}
