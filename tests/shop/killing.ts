import { type ChildProcess, spawn } from "node:child_process";
import { once } from "node:events";
import { setTimeout as sleep } from "node:timers/promises";
import { fileURLToPath } from "node:url";
import { buildSync } from "esbuild";
import type { ShopStore } from "../../src/server/store/index.ts";
import { bytesOf } from "./payload.ts";

/** A writer (writer.ts) and what it was acknowledged: the number in the store and which batch it was of. */
export interface Writer {
  readonly acked: Map<number, number>;
  /** Why appends were refused, in order. */
  readonly refused: string[];
  readonly until: (what: () => boolean) => Promise<void>;
  /** kill -9; resolves when it is gone and all that it had said is read. */
  readonly kill: () => Promise<void>;
}

let writer: string | undefined;
/** The writer as one piece of plain JavaScript, which starts in a tenth of the time and leaves no file behind. */
function built(): string {
  writer ??= buildSync({
    entryPoints: [fileURLToPath(new URL("writer.ts", import.meta.url))],
    write: false,
    bundle: true,
    platform: "node",
    format: "cjs",
    packages: "external",
  }).outputFiles[0]?.text;
  return writer ?? "";
}

/** Starts one and waits until it has the store open. */
export async function startWriter(kind: "sqlite" | "postgres", where: string, job: string): Promise<Writer> {
  const child: ChildProcess = spawn(process.execPath, ["-e", built(), kind, where, job], {
    stdio: ["ignore", "pipe", "pipe"],
    cwd: fileURLToPath(new URL("../..", import.meta.url)),
  });
  const [acked, refused] = [new Map<number, number>(), [] as string[]];
  let [rest, errors, isOpen] = ["", "", false];
  child.stderr?.on("data", (data: Buffer) => {
    errors += data.toString();
  });
  child.stdout?.on("data", (data: Buffer) => {
    const lines = (rest + data.toString()).split("\n");
    rest = lines.pop() ?? "";
    for (const line of lines) {
      const [first, second] = line.split(" ") as [string, string];
      if (first === "open") isOpen = true;
      else if (first === "refused") refused.push(second);
      else acked.set(Number(first), Number(second));
    }
  });
  const over = once(child, "close");
  const until = async (what: () => boolean) => {
    for (let i = 0; !what(); i++) {
      if (child.exitCode !== null) throw new Error(`the writer ended: ${errors}`);
      if (i > 6000) throw new Error(`waited in vain: ${what.toString()} ${errors}`);
      await sleep(10);
    }
  };
  await until(() => isOpen);
  const kill = async () => {
    if (child.exitCode !== null) throw new Error(`the writer ended by itself: ${errors}`);
    child.kill("SIGKILL");
    await over;
  };
  return { acked, refused, until, kill };
}

/** How many of the acknowledged changes behind `from` are not in the store as they were sent, and how many are torn. */
export async function lost(
  store: ShopStore,
  job: string,
  acked: ReadonlyMap<number, number>,
  from = 0,
): Promise<{ readonly lost: number; readonly torn: number }> {
  const kept = new Map<number, Uint8Array>();
  let torn = 0;
  for (let after = from; ; ) {
    const page = await store.history(job, after, 500);
    for (const c of page) {
      kept.set(c.seq, c.update);
      if (!equal(c.update, bytesOf(c.at))) torn++;
    }
    const last = page.at(-1);
    if (!last) break;
    after = last.seq;
  }
  const missing = [...acked].filter(([seq, n]) => seq > from && !equal(kept.get(seq), bytesOf(n)));
  return { lost: missing.length, torn };
}

const equal = (a: Uint8Array | undefined, b: Uint8Array): boolean =>
  a !== undefined && Buffer.compare(a, b) === 0;
