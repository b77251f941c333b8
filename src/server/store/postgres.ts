import { createHash, randomUUID } from "node:crypto";
import { checkCompaction, checkDigest, checkId } from "./checks.ts";
import {
  type Base,
  type Change,
  type Json,
  type Kept,
  type Kind,
  NotOpened,
  NotStored,
  type ShopStore,
  type Stored,
  type Watch,
} from "./port.ts";
import { asNotStored, Link, type Row } from "./postgres-link.ts";
import { Listener } from "./postgres-listener.ts";
import { OwnCalls, type Told } from "./postgres-own.ts";
import * as SQL from "./postgres-sql.ts";
import { Queue } from "./queue.ts";

/**
 * The store of one of the shops in a database, for many shops or many servers. `url`: a connection string. Throws
 * `NotOpened` where nobody answers or a newer program made the tables.
 *
 * When the connection breaks after a commit and before its answer, the call rejects as `unreachable` and is done all
 * the same. What holds then: `append` is sent again by its maker under a new number, and applying an update twice is
 * as once (Yjs), so the history has one row more; this process hears of the first one as if another had done it, so
 * its documents do not lack it. `put`, `remove`, `purge`, `putBlob` done twice are as done once. A `swap` done twice
 * finds its first one and says false: a code that was used up so lets nobody in, and a new one is made.
 */
export async function openPostgres(url: string, shop: string): Promise<ShopStore> {
  checkId(shop);
  const link = new Link(url);
  const store = new PostgresStore(url, shop, link);
  try {
    await prepare(link);
    await store.listen();
    return store;
  } catch (error) {
    await link.close();
    if (error instanceof NotOpened) throw error;
    throw new NotOpened(asNotStored(error).why, error);
  }
}

async function prepare(link: Link): Promise<void> {
  const version = await link.transaction(async (query) => {
    await query(SQL.SCHEMA_LOCK);
    await query(SQL.TABLES);
    return (await query("SELECT version FROM shop_schema"))[0]?.version as number;
  });
  if (version > SQL.SCHEMA)
    throw new NotOpened("newer", new Error(`schema ${version}, this program's ${SQL.SCHEMA}`));
}

const bytesOf = ({ bytes }: Row): Uint8Array => new Uint8Array(bytes as Buffer);
const bufferOf = (b: Uint8Array): Buffer => Buffer.from(b.buffer, b.byteOffset, b.byteLength);
const isUnsure = (error: unknown): boolean => error instanceof NotStored && error.why === "unreachable";

class PostgresStore implements ShopStore {
  private readonly shop: string;
  private readonly link: Link;
  private readonly listener: Listener;
  private readonly server = randomUUID();
  private readonly channel: string;
  private readonly own: OwnCalls;
  private readonly queue = new Queue();
  private readonly watches: Watch[] = [];

  constructor(url: string, shop: string, link: Link) {
    this.shop = shop;
    this.link = link;
    // a name of letters and digits below PostgreSQL's 63, whatever the shop is called
    this.channel = `tubewright_${createHash("sha256").update(shop).digest("hex").slice(0, 32)}`;
    this.own = new OwnCalls(this.server, (told) => this.tell(told));
    this.listener = new Listener(url, this.channel, {
      told: (payload) => this.own.hear(payload),
      lost: () => this.each((watch) => watch.lost()),
      back: () => this.each((watch) => watch.back()),
    });
  }

  listen(): Promise<void> {
    return this.listener.start();
  }

  async append(changes: readonly Change[]): Promise<readonly number[]> {
    for (const { job, device } of changes) checkId(job, device);
    if (changes.length === 0) return [];
    const jobs = [...new Set(changes.map((c) => c.job))].map(jobKey);
    const columns = (["job", "device", "at", "seen"] as const).map((key) => changes.map((c) => c[key]));
    const updates = changes.map((c) => bufferOf(c.update));
    const rows = await this.queue.run(jobs, () => this.telling(SQL.APPEND, ...columns, updates));
    return rows.map((row) => row.seq as number);
  }

  async read(job: string): Promise<Kept | undefined> {
    const rows = await this.ofJob(job, SQL.READ);
    const [first] = rows;
    if (!first) return undefined;
    if (first.device !== null) return { log: rows.map(storedIn(job)) };
    const base: Base = { seq: first.seq as number, at: first.at as number, update: bytesOf(first) };
    return { base, log: rows.slice(1).map(storedIn(job)) };
  }

  async fetch(job: string, seqs: readonly number[]): Promise<readonly Stored[]> {
    return (await this.ofJob(job, SQL.FETCH, seqs)).map(storedIn(job));
  }

  async history(job: string, after: number, limit: number): Promise<readonly Stored[]> {
    return (await this.ofJob(job, SQL.HISTORY, after, Math.max(0, limit))).map(storedIn(job));
  }

  async counts(job: string): Promise<{ readonly log: number; readonly all: number }> {
    const [row] = await this.ofJob(job, SQL.COUNTS);
    return { log: row?.log as number, all: row?.all as number };
  }

  async compact(job: string, was: number, base: Base, by: readonly Stored[]): Promise<boolean> {
    checkCompaction(job, was, base, by);
    const of = [this.shop, job] as const;
    return this.inJob(job, async (query) => {
      const [now] = await query("SELECT seq FROM shop_base WHERE shop = $1 AND job = $2", ...of);
      if (((now?.seq as number | undefined) ?? 0) !== was) return false;
      const range =
        "DELETE FROM shop_log WHERE shop = $1 AND job = $2 AND seq > $3 AND seq <= $4 RETURNING 1";
      if ((await query(range, ...of, was, base.seq)).length === 0) return false;
      const columns = (["seq", "device", "at", "seen"] as const).map((key) => by.map((c) => c[key]));
      await query(
        SQL.INSERT_ROWS,
        ...of,
        ...columns,
        by.map((c) => bufferOf(c.update)),
      );
      await query(SQL.SET_BASE, ...of, base.seq, base.at, bufferOf(base.update));
      return true;
    });
  }

  async purge(job: string): Promise<void> {
    checkId(job);
    await this.inJob(job, async (query) => {
      for (const table of ["shop_log", "shop_base"])
        await query(`DELETE FROM ${table} WHERE shop = $1 AND job = $2`, this.shop, job);
    });
  }

  async get(kind: Kind, id: string): Promise<Json | undefined> {
    checkId(id);
    const sql = "SELECT value FROM shop_record WHERE shop = $1 AND kind = $2 AND id = $3";
    const [row] = await this.queue.run([kindKey(kind)], () => this.link.query(sql, this.shop, kind, id));
    return row ? (JSON.parse(row.value as string) as Json) : undefined;
  }

  async all(kind: Kind): Promise<ReadonlyMap<string, Json>> {
    const sql = "SELECT id, value FROM shop_record WHERE shop = $1 AND kind = $2 ORDER BY id";
    const rows = await this.queue.run([kindKey(kind)], () => this.link.query(sql, this.shop, kind));
    return new Map(rows.map(({ id, value }) => [id as string, JSON.parse(value as string) as Json]));
  }

  async put(kind: Kind, id: string, value: Json): Promise<void> {
    await this.record(SQL.PUT, kind, id, value);
  }

  async swap(kind: Kind, id: string, was: Json | undefined, value: Json | undefined): Promise<boolean> {
    if (value !== undefined)
      return was === undefined
        ? this.record(SQL.PUT_NEW, kind, id, value)
        : this.record(SQL.PUT_WHERE, kind, id, value, was);
    if (was !== undefined) return this.record(SQL.REMOVE_WHERE, kind, id, was);
    return (await this.get(kind, id)) === undefined;
  }

  async remove(kind: Kind, id: string): Promise<void> {
    await this.record(SQL.REMOVE, kind, id);
  }

  /** Photographs as rows: the servers share no disk. */
  async putBlob(digest: string, bytes: Uint8Array): Promise<void> {
    checkDigest(digest, bytes);
    const sql = "INSERT INTO shop_blob (shop, digest, bytes) VALUES ($1, $2, $3) ON CONFLICT DO NOTHING";
    await this.queue.run([digest], () => this.link.query(sql, this.shop, digest, bufferOf(bytes)));
  }

  async blob(digest: string): Promise<Uint8Array | undefined> {
    checkDigest(digest);
    const sql = "SELECT bytes FROM shop_blob WHERE shop = $1 AND digest = $2";
    const [row] = await this.queue.run([digest], () => this.link.query(sql, this.shop, digest));
    return row && bytesOf(row);
  }

  watch(watch: Watch): void {
    this.watches.push(watch);
    if (!this.listener.listens) watch.lost();
  }

  async close(): Promise<void> {
    await this.queue.idle();
    await this.listener.close();
    await this.link.close();
  }

  private tell({ job, first, last, kind, id }: Told): void {
    if (job !== undefined && first !== undefined && last !== undefined) {
      const seqs = Array.from({ length: last - first + 1 }, (_, i) => first + i);
      this.each((watch) => watch.appended(job, seqs));
    } else if (kind !== undefined && id !== undefined) this.each((watch) => watch.changed(kind as Kind, id));
  }

  private each(tell: (watch: Watch) => void): void {
    for (const watch of this.watches) tell(watch);
  }

  /** A statement that notifies the others. */
  private telling(sql: string, ...values: unknown[]): Promise<readonly Row[]> {
    const head = [this.shop, this.channel, this.server];
    return this.own.make((call) => this.link.query(sql, ...head, call, ...values), isUnsure);
  }

  private async record(sql: string, kind: Kind, id: string, ...values: Json[]): Promise<boolean> {
    checkId(id);
    const texts = values.map((value) => JSON.stringify(value));
    const [row] = await this.queue.run([kindKey(kind)], () => this.telling(sql, kind, id, ...texts));
    return row?.done === 1;
  }

  private async ofJob(job: string, sql: string, ...values: unknown[]): Promise<readonly Row[]> {
    checkId(job);
    return this.queue.run([jobKey(job)], () => this.link.query(sql, this.shop, job, ...values));
  }

  /** A transaction that keeps the job from growing meanwhile. */
  private inJob<T>(job: string, work: (query: Link["query"]) => Promise<T>): Promise<T> {
    return this.queue.run([jobKey(job)], () =>
      this.link.transaction(async (query) => {
        await query(SQL.LOCK_HEAD, this.shop, job);
        return work(query);
      }),
    );
  }
}

const jobKey = (job: string): string => `job ${job}`;
const kindKey = (kind: Kind): string => `kind ${kind}`;

const storedIn =
  (job: string) =>
  (row: Row): Stored =>
    ({ job, seq: row.seq, device: row.device, at: row.at, seen: row.seen, update: bytesOf(row) }) as Stored;
