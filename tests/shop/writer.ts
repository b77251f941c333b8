/**
 * A process that appends to a store until it is killed, and writes the number of each change that was acknowledged to
 * its output. Arguments: "sqlite" and a path, or "postgres" and a connection string; then a job's ID.
 */
import { setTimeout as sleep } from "node:timers/promises";
import { NotStored, openPostgres, openSqlite } from "../../src/server/store/index.ts";
import { bytesOf } from "./payload.ts";

async function main(): Promise<never> {
  const [kind, where, job] = process.argv.slice(-3) as [string, string, string];
  const store = kind === "sqlite" ? await openSqlite(where) : await openPostgres(where, "shop");
  const write = (line: string) => process.stdout.write(`${line}\n`);
  write("open");
  for (let n = 0; ; n++) {
    // a batch of one to three, of some kilobytes
    const change = { job, device: "d", at: n, seen: n, update: bytesOf(n) };
    const batch = Array.from({ length: 1 + (n % 3) }, () => change);
    try {
      for (const seq of await store.append(batch)) write(`${seq} ${n}`);
    } catch (error) {
      if (!(error instanceof NotStored)) throw error;
      write(`refused ${error.why}`);
      await sleep(20);
    }
  }
}

void main();
