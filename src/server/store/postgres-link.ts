import pg from "pg";
import { NotStored } from "./port.ts";

export type Row = Readonly<Record<string, unknown>>;

/** Connections that a server process takes at most, one more listens: many servers share what a database has. */
const CONNECTIONS = 4;
/** A database that does not answer for so long is taken for one that is away, milliseconds. */
const PATIENCE = 30_000;

/** What every connection is opened with. Numbers of 8 bytes come as numbers: all of ours are below 2^53. */
export const connection = (url: string): pg.ClientConfig => ({
  connectionString: url,
  connectionTimeoutMillis: 5_000,
  query_timeout: PATIENCE,
  keepAlive: true,
  application_name: "tubewright",
  types: {
    getTypeParser: ((oid: number, format?: "text") =>
      oid === pg.types.builtins.INT8
        ? Number
        : pg.types.getTypeParser(oid, format)) as typeof pg.types.getTypeParser,
  },
});

/** Whatever the database's default is: a commit that answers is on the disk. */
const DURABLE = `SELECT set_config('synchronous_commit', 'on', false) WHERE current_setting('synchronous_commit') = 'off'`;

/**
 * Why a call failed. An error that PostgreSQL itself reports has a code (SQLSTATE, appendix A of its manual): 53100 a
 * full disk; class 08, 57P01 to 57P05 and 53300 a server that goes, starts, or has no connection left; 25006 one that
 * only reads by now. Whatever else befalls a connection means that nobody answered.
 */
export function asNotStored(error: unknown): NotStored {
  if (error instanceof NotStored) return error;
  if (error instanceof TypeError || error instanceof RangeError) return new NotStored("other", error);
  if (!(error instanceof pg.DatabaseError)) return new NotStored("unreachable", error);
  const code = error.code ?? "";
  if (code === "53100") return new NotStored("full", error);
  return new NotStored(/^(08...|57P0.|53300|25006)$/.test(code) ? "unreachable" : "other", error);
}

/** A few connections, of which each call takes one. A broken one is thrown away; nothing is tried twice. */
export class Link {
  private readonly pool: pg.Pool;
  private isOpen = true;

  constructor(url: string) {
    this.pool = new pg.Pool({
      ...connection(url),
      max: CONNECTIONS,
      idleTimeoutMillis: 60_000,
      // the pool waits for this before it gives the connection out
      verify: (client, done) => client.query(DURABLE, done),
    });
    // an error event that nobody hears ends the process: on an idle connection, or one that a call has in hand
    this.pool.on("error", () => undefined);
    this.pool.on("connect", (client) => client.on("error", () => undefined));
  }

  /** One statement, which is a transaction of its own. */
  async query(sql: string, ...values: unknown[]): Promise<readonly Row[]> {
    try {
      if (!this.isOpen) throw new NotStored("other", new Error("closed"));
      return (await this.pool.query<Record<string, unknown>>(sql, values)).rows;
    } catch (error) {
      throw asNotStored(error);
    }
  }

  /** Several statements, all of them or none. */
  async transaction<T>(work: (query: Link["query"]) => Promise<T>): Promise<T> {
    let client: pg.PoolClient | undefined;
    try {
      if (!this.isOpen) throw new NotStored("other", new Error("closed"));
      const taken = (client = await this.pool.connect());
      await taken.query("BEGIN");
      const result = await work(
        async (sql, ...values) => (await taken.query<Record<string, unknown>>(sql, values)).rows,
      );
      await taken.query("COMMIT");
      taken.release();
      return result;
    } catch (error) {
      // the database rolls back what a closed connection had not committed
      client?.release(true);
      throw asNotStored(error);
    }
  }

  async close(): Promise<void> {
    if (!this.isOpen) return;
    this.isOpen = false;
    await this.pool.end().catch(() => undefined);
  }
}
