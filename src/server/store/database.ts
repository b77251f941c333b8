import Libsql from "libsql";

type Value = string | number | Uint8Array | null;
type Statement = Libsql.Statement<unknown[]>;

/** A code of SQLite ("SQLITE_FULL", …), or undefined for an error of another kind. */
export const sqliteCode = (error: unknown): string | undefined => {
  const { code } = error as { readonly code?: unknown };
  return typeof code === "string" && code.startsWith("SQLITE_") ? code : undefined;
};

/**
 * libsql, with what must not be forgotten done once: rows come as lists (its rows with names carry an entry of its
 * own), blobs as Uint8Array (its `all` and `iterate` give ArrayBuffer, its `get` Buffer), parameters go in as one list
 * (a lone one that is an object is taken for names), and it waits for a lock (its own timeout is 0).
 */
export class Database {
  private readonly inner: Libsql.Database;
  private readonly statements = new Map<string, Statement>();

  constructor(path: string, timeout: number) {
    this.inner = new Libsql(path, { timeout });
  }

  /** One or more statements without parameters and answers. */
  exec(sql: string): void {
    this.inner.exec(sql);
  }

  run(sql: string, ...values: Value[]): { readonly changes: number; readonly lastInsertRowid: number } {
    const { changes, lastInsertRowid } = this.statement(sql).run(values);
    return { changes, lastInsertRowid: Number(lastInsertRowid) };
  }

  /** All rows, each a list of its columns. Reads to the end: a statement left open would keep the log from shrinking. */
  rows(sql: string, ...values: Value[]): unknown[][] {
    const rows = this.statement(sql).all(values) as unknown[][];
    return rows.map((row) => row.map((value) => (isBytes(value) ? new Uint8Array(value) : value)));
  }

  /** All of it, on the disk, or nothing. */
  transaction<T>(work: () => T): T {
    this.inner.exec("BEGIN IMMEDIATE");
    try {
      const result = work();
      this.inner.exec("COMMIT");
      return result;
    } catch (error) {
      // a full disk may have rolled it back already
      if (this.inner.inTransaction) this.inner.exec("ROLLBACK");
      throw error;
    }
  }

  /**
   * Lets go of the file. libsql ends a statement when the garbage collector takes it, and a connection with its last
   * statement, so the lock would outlive `close`: the log is taken over and the lock given back before.
   */
  close(): void {
    try {
      for (const pragma of ["journal_mode = DELETE", "locking_mode = NORMAL", "user_version"])
        this.rows(`PRAGMA ${pragma}`);
    } catch {
      // not ours, or full: nothing is lost, what is committed is in the log
    }
    this.statements.clear();
    this.inner.close();
  }

  private statement(sql: string): Statement {
    const known = this.statements.get(sql);
    if (known) return known;
    const made = this.inner.prepare(sql);
    if (made.reader) made.raw();
    this.statements.set(sql, made);
    return made;
  }
}

const isBytes = (value: unknown): value is ArrayBuffer | Uint8Array =>
  value instanceof ArrayBuffer || value instanceof Uint8Array;
