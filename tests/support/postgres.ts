import { type ChildProcess, execFileSync, spawn } from "node:child_process";
import { chmodSync, chownSync, existsSync, mkdtempSync, readdirSync, readFileSync, rmSync } from "node:fs";
import { tmpdir } from "node:os";
import { join } from "node:path";
import { setTimeout as sleep } from "node:timers/promises";
import pg from "pg";
import { freePort } from "./port.ts";

const DEBIAN = "/usr/lib/postgresql";

/** The folder of PostgreSQL's programs, of the newest one installed; undefined where there is none. */
export function postgresBin(): string | undefined {
  if (!existsSync(DEBIAN)) return undefined;
  const versions = readdirSync(DEBIAN).sort((a, b) => Number(b) - Number(a));
  return versions.map((v) => join(DEBIAN, v, "bin")).find((bin) => existsSync(join(bin, "initdb")));
}

/** A PostgreSQL of the tests' own, which they may kill. */
export interface Postgres {
  /** Connection string of a database that is made for the asker. */
  readonly database: () => Promise<string>;
  /** The same, with its tables in this folder, which the server is given. */
  readonly databaseIn: (folder: string) => Promise<string>;
  /** Kills the postmaster (kill -9), as a machine's end would: its children follow. */
  readonly kill: () => void;
  /** Starts it anew, with what it had; waits until it answers. */
  readonly start: () => Promise<void>;
  /** Stops it and removes all it had. */
  readonly remove: () => Promise<void>;
}

/**
 * Makes a cluster in a temporary folder and starts it on a port of loopback. PostgreSQL refuses to be root: then it is
 * the user of Debian's package. `fsync` stays on: what the tests say of kill -9 holds of the real thing. `settings` go
 * to the server as they are.
 */
export async function startPostgres(settings: Readonly<Record<string, string>> = {}): Promise<Postgres> {
  const bin = postgresBin();
  if (!bin) throw new Error("the tests of the shop's store need PostgreSQL: install the package postgresql");
  const folder = mkdtempSync(join(tmpdir(), "tubewright-pg-"));
  const user = process.getuid?.() === 0 ? idsOf("postgres") : undefined;
  if (user) chownSync(folder, user.uid, user.gid);
  chmodSync(folder, 0o700);
  const data = join(folder, "data");
  const asUser = { cwd: folder, ...user };
  execFileSync(
    join(bin, "initdb"),
    ["-D", data, "-U", "tubewright", "-A", "trust", "-E", "UTF8", "--no-locale"],
    {
      ...asUser,
      stdio: "ignore",
    },
  );
  const port = await freePort();
  const all = {
    listen_addresses: "127.0.0.1",
    port: `${port}`,
    unix_socket_directories: "",
    fsync: "on",
    ...settings,
  };
  const args = ["-D", data, ...Object.entries(all).flatMap(([key, value]) => ["-c", `${key}=${value}`])];
  const url = (name: string) => `postgresql://tubewright@127.0.0.1:${port}/${name}`;
  let server: ChildProcess | undefined;
  let made = 0;

  const start = async (): Promise<void> => {
    const end = Date.now() + 60_000;
    while (Date.now() < end) {
      server ??= spawn(join(bin, "postgres"), args, { ...asUser, stdio: "ignore" });
      if (await answers(url("postgres"))) return;
      // after kill -9 the first tries are refused while children of the old one still have its memory
      if (server.exitCode !== null || server.signalCode !== null) server = undefined;
      await sleep(50);
    }
    throw new Error("PostgreSQL does not start");
  };
  const kill = (): void => {
    server?.kill("SIGKILL");
    server = undefined;
  };
  const database = async (): Promise<string> => {
    const name = `d${++made}`;
    await query(url("postgres"), `CREATE DATABASE ${name}`);
    return url(name);
  };
  process.once("exit", kill);
  await start();
  return {
    database,
    async databaseIn(folder) {
      if (user) chownSync(folder, user.uid, user.gid);
      await query(url("postgres"), `CREATE TABLESPACE t${made + 1} LOCATION '${folder}'`);
      const its = await database();
      await query(its, `ALTER DATABASE d${made} SET default_tablespace = t${made}`);
      return its;
    },
    kill,
    start,
    async remove() {
      const over = server && new Promise((done) => server?.once("exit", done));
      // at once: nothing of it is wanted any more
      server?.kill("SIGQUIT");
      await over;
      process.off("exit", kill);
      // children of a killed one may still be writing
      for (let i = 0; ; i++) {
        try {
          return rmSync(folder, { recursive: true, force: true });
        } catch (error) {
          if (i > 50) throw error;
          await sleep(100);
        }
      }
    },
  };
}

/** Runs one statement over a connection of its own. */
export async function query(url: string, sql: string): Promise<readonly unknown[]> {
  const client = new pg.Client({ connectionString: url, connectionTimeoutMillis: 2000 });
  client.on("error", () => undefined);
  await client.connect();
  try {
    return (await client.query<Record<string, unknown>>(sql)).rows;
  } finally {
    await client.end();
  }
}

const answers = (url: string): Promise<boolean> =>
  query(url, "SELECT 1").then(
    () => true,
    () => false,
  );

function idsOf(name: string): { uid: number; gid: number } {
  const line = readFileSync("/etc/passwd", "utf8")
    .split("\n")
    .find((l) => l.startsWith(`${name}:`));
  const [, , uid, gid] = (line ?? "").split(":").map(Number);
  if (uid === undefined || gid === undefined) throw new Error(`no user ${name}`);
  return { uid, gid };
}
