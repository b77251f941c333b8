import { mkdir } from "node:fs/promises";
import { dirname, join } from "node:path";
import { Blobs } from "./blobs.ts";
import { checkCompaction, checkDigest, checkId } from "./checks.ts";
import { Database, sqliteCode } from "./database.ts";
import {
  type Base,
  type Change,
  InUse,
  type Json,
  type Kept,
  type Kind,
  NotOpened,
  NotStored,
  type ShopStore,
  type Stored,
} from "./port.ts";
import { Queue } from "./queue.ts";

/** Counted up with each change of the tables; an older program leaves a newer store alone. */
const SCHEMA = 1;
/** Marks a database as ours ("Tbwr"). */
const APPLICATION = 0x54627772;

/** How long the start waits for another process to let go, milliseconds: a shop that is started anew at once. */
const WAIT = 1000;

/**
 * Durable at each commit: the log of SQLite (WAL) is synced before a commit answers (FULL). EXCLUSIVE: a second
 * process does not get in, since each would hold its own documents in memory and neither would see the other's
 * changes. The log is taken over into the database after 128 pages (half a megabyte), not 1,000: on a disk that is
 * nearly full what lies in both places counts twice. It is cut back to a megabyte after a large compaction.
 */
const SETTINGS = ["locking_mode = EXCLUSIVE", "journal_mode = WAL", "synchronous = FULL"];
const TUNING = ["wal_autocheckpoint = 128", "journal_size_limit = 1048576"];

/**
 * `log` has every change, also those that `base` holds: they are the history. AUTOINCREMENT: a number is never given
 * twice, even after a purge, so that what a device had seen stays true.
 */
const TABLES = `
CREATE TABLE log (seq INTEGER PRIMARY KEY AUTOINCREMENT, job TEXT NOT NULL, device TEXT NOT NULL,
  at INTEGER NOT NULL, seen INTEGER NOT NULL, bytes BLOB NOT NULL);
CREATE INDEX log_of_job ON log (job, seq);
CREATE TABLE base (job TEXT PRIMARY KEY, seq INTEGER NOT NULL, at INTEGER NOT NULL, bytes BLOB NOT NULL);
CREATE TABLE record (kind TEXT NOT NULL, id TEXT NOT NULL, value TEXT NOT NULL, PRIMARY KEY (kind, id)) WITHOUT ROWID;
PRAGMA application_id = ${APPLICATION};
PRAGMA user_version = ${SCHEMA};`;

const ROW = ["seq", "device", "at", "seen", "bytes"].join(", ");

/**
 * The store of one shop in a file (FOLDER/.tubewright/shop.db), photographs in `blobs` beside it. Throws `InUse` where
 * another process has it, `NotOpened` where it is none that this program reads.
 */
export async function openSqlite(path: string): Promise<ShopStore> {
  const blobs = new Blobs(join(dirname(path), "blobs"));
  let database: Database | undefined;
  try {
    await mkdir(dirname(path), { recursive: true, mode: 0o700 });
    database = new Database(path, WAIT);
    prepare(database);
    await blobs.open();
    return new SqliteStore(database, blobs);
  } catch (error) {
    database?.close();
    if (error instanceof NotOpened) throw error;
    const code = sqliteCode(error) ?? "";
    if (/^SQLITE_(BUSY|LOCKED)/.test(code)) throw new InUse("in use", { cause: error });
    if (/^SQLITE_(NOTADB|CORRUPT)/.test(code)) throw new NotOpened("damaged", error);
    throw new NotOpened(isFull(error) ? "full" : "other", error);
  }
}

/** Takes the lock, says no to what is not ours or newer, and makes the tables of a new one. */
function prepare(database: Database): void {
  for (const setting of SETTINGS) database.rows(`PRAGMA ${setting}`);
  for (const setting of TUNING) database.rows(`PRAGMA ${setting}`);
  database.transaction(() => {
    const number = (sql: string) => database.rows(sql)[0]?.[0] as number;
    const version = number("PRAGMA user_version");
    const isNew = number("SELECT count(*) FROM sqlite_schema") === 0;
    if (!isNew && number("PRAGMA application_id") !== APPLICATION)
      throw new NotOpened("damaged", new Error("a database of something else"));
    if (version > SCHEMA)
      throw new NotOpened("newer", new Error(`schema ${version}, this program's ${SCHEMA}`));
    if (isNew) database.exec(TABLES);
  });
}

const isFull = (error: unknown): boolean =>
  sqliteCode(error) === "SQLITE_FULL" ||
  ["ENOSPC", "EDQUOT"].includes((error as NodeJS.ErrnoException).code ?? "");

const asNotStored = (error: unknown): NotStored =>
  error instanceof NotStored ? error : new NotStored(isFull(error) ? "full" : "other", error);

/**
 * Every call on the database is done before it returns (libsql is synchronous), so all of them are in order; a commit
 * takes what one sync of the disk takes. Photographs are written beside, in order among themselves.
 */
class SqliteStore implements ShopStore {
  private readonly database: Database;
  private readonly blobs: Blobs;
  private readonly queue = new Queue();
  private isOpen = true;

  constructor(database: Database, blobs: Blobs) {
    this.database = database;
    this.blobs = blobs;
  }

  async append(changes: readonly Change[]): Promise<readonly number[]> {
    const sql = "INSERT INTO log (job, device, at, seen, bytes) VALUES (?, ?, ?, ?, ?)";
    return this.write((db) => {
      for (const { job, device } of changes) checkId(job, device);
      return changes.map((c) => db.run(sql, c.job, c.device, c.at, c.seen, c.update).lastInsertRowid);
    });
  }

  async read(job: string): Promise<Kept | undefined> {
    return this.look((db) => {
      checkId(job);
      const [base] = db.rows("SELECT seq, at, bytes FROM base WHERE job = ?", job);
      const rows = db.rows(
        `SELECT ${ROW} FROM log WHERE job = ? AND seq > ? ORDER BY seq`,
        job,
        base ? (base[0] as number) : 0,
      );
      const log = rows.map(storedIn(job));
      if (base) return { base: baseIn(base), log };
      return log.length > 0 ? { log } : undefined;
    });
  }

  async fetch(job: string, seqs: readonly number[]): Promise<readonly Stored[]> {
    const sql = `SELECT ${ROW} FROM log WHERE job = ? AND seq = ?`;
    const inOrder = [...new Set(seqs)].sort((a, b) => a - b);
    return this.look((db) => {
      checkId(job);
      return inOrder.flatMap((seq) => db.rows(sql, job, seq).map(storedIn(job)));
    });
  }

  async history(job: string, after: number, limit: number): Promise<readonly Stored[]> {
    const sql = `SELECT ${ROW} FROM log WHERE job = ? AND seq > ? ORDER BY seq LIMIT ?`;
    return this.look((db) => {
      checkId(job);
      return db.rows(sql, job, after, Math.max(0, limit)).map(storedIn(job));
    });
  }

  async counts(job: string): Promise<{ readonly log: number; readonly all: number }> {
    const sql = `SELECT count(*), count(*) FILTER (WHERE seq > coalesce((SELECT seq FROM base WHERE job = ?), 0))
      FROM log WHERE job = ?`;
    return this.look((db) => {
      checkId(job);
      const [all, log] = db.rows(sql, job, job)[0] as [number, number];
      return { all, log };
    });
  }

  async compact(job: string, was: number, base: Base, by: readonly Stored[]): Promise<boolean> {
    return this.write((db) => {
      checkCompaction(job, was, base, by);
      const now = (db.rows("SELECT seq FROM base WHERE job = ?", job)[0]?.[0] as number | undefined) ?? 0;
      if (now !== was) return false;
      if (db.run("DELETE FROM log WHERE job = ? AND seq > ? AND seq <= ?", job, was, base.seq).changes === 0)
        return false;
      const sql = "INSERT INTO log (seq, job, device, at, seen, bytes) VALUES (?, ?, ?, ?, ?, ?)";
      for (const c of by) db.run(sql, c.seq, job, c.device, c.at, c.seen, c.update);
      db.run("INSERT OR REPLACE INTO base VALUES (?, ?, ?, ?)", job, base.seq, base.at, base.update);
      return true;
    });
  }

  async purge(job: string): Promise<void> {
    this.write((db) => {
      checkId(job);
      db.run("DELETE FROM log WHERE job = ?", job);
      db.run("DELETE FROM base WHERE job = ?", job);
    });
  }

  async get(kind: Kind, id: string): Promise<Json | undefined> {
    return this.look((db) => parsed(textOf(db, kind, id)));
  }

  async all(kind: Kind): Promise<ReadonlyMap<string, Json>> {
    return this.look((db) => {
      const rows = db.rows("SELECT id, value FROM record WHERE kind = ? ORDER BY id", kind) as [
        string,
        string,
      ][];
      return new Map(rows.map(([id, value]) => [id, JSON.parse(value) as Json]));
    });
  }

  async put(kind: Kind, id: string, value: Json): Promise<void> {
    this.write((db) => setText(db, kind, id, JSON.stringify(value)));
  }

  async swap(kind: Kind, id: string, was: Json | undefined, value: Json | undefined): Promise<boolean> {
    return this.write((db) => {
      if (textOf(db, kind, id) !== JSON.stringify(was)) return false;
      setText(db, kind, id, JSON.stringify(value));
      return true;
    });
  }

  async remove(kind: Kind, id: string): Promise<void> {
    this.write((db) => setText(db, kind, id, undefined));
  }

  async putBlob(digest: string, bytes: Uint8Array): Promise<void> {
    await this.queue
      .run(["blobs"], () => {
        checkDigest(digest, bytes);
        return this.blobs.put(digest, bytes);
      })
      .catch((error: unknown) => Promise.reject(asNotStored(error)));
  }

  async blob(digest: string): Promise<Uint8Array | undefined> {
    return this.queue
      .run(["blobs"], () => {
        checkDigest(digest);
        return this.blobs.get(digest);
      })
      .catch((error: unknown) => Promise.reject(asNotStored(error)));
  }

  watch(): void {
    // no other process gets in
  }

  async close(): Promise<void> {
    await this.queue.idle();
    if (this.isOpen) this.database.close();
    this.isOpen = false;
  }

  private write<T>(work: (database: Database) => T): T {
    return this.look((db) => db.transaction(() => work(db)));
  }

  private look<T>(work: (database: Database) => T): T {
    try {
      if (!this.isOpen) throw new Error("closed");
      return work(this.database);
    } catch (error) {
      throw asNotStored(error);
    }
  }
}

const storedIn =
  (job: string) =>
  ([seq, device, at, seen, update]: unknown[]): Stored =>
    ({ job, seq, device, at, seen, update }) as Stored;

const baseIn = ([seq, at, update]: unknown[]): Base => ({ seq, at, update }) as Base;

const parsed = (text: string | undefined): Json | undefined =>
  text === undefined ? undefined : (JSON.parse(text) as Json);

function textOf(db: Database, kind: Kind, id: string): string | undefined {
  checkId(id);
  const sql = "SELECT value FROM record WHERE kind = ? AND id = ?";
  return db.rows(sql, kind, id)[0]?.[0] as string | undefined;
}

function setText(db: Database, kind: Kind, id: string, text: string | undefined): void {
  checkId(id);
  if (text === undefined) db.run("DELETE FROM record WHERE kind = ? AND id = ?", kind, id);
  else db.run("INSERT OR REPLACE INTO record VALUES (?, ?, ?)", kind, id, text);
}
