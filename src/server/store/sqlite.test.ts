import { spawnSync } from "node:child_process";
import { mkdir, mkdtemp, readdir, rm, writeFile } from "node:fs/promises";
import { tmpdir } from "node:os";
import { join } from "node:path";
import { afterEach, beforeEach, expect, it } from "vitest";
import { change } from "../../../tests/shop/store-suite.ts";
import { Database } from "./database.ts";
import { InUse, NotOpened } from "./port.ts";
import { openSqlite } from "./sqlite.ts";

let folder: string;
let path: string;
beforeEach(async () => {
  folder = await mkdtemp(join(tmpdir(), "tubewright-sqlite-"));
  path = join(folder, "shop.db");
});
afterEach(() => rm(folder, { recursive: true }));

const whyNot = async (opening: Promise<unknown>): Promise<string> => {
  const error = await opening.then(
    () => undefined,
    (e: unknown) => e,
  );
  return error instanceof NotOpened ? error.why : String(error);
};

/** Opens the store in a process of its own and says what came of it. */
function elsewhere(): string {
  const script = `import("${import.meta.dirname}/sqlite.ts").then((m) => m.openSqlite(process.argv[1])).then(
    (s) => s.close().then(() => console.log("opened")), (e) => console.log(e.name));`;
  const args = ["--import", "tsx", "--input-type=module", "-e", script, path];
  const done = spawnSync(process.execPath, args, { encoding: "utf8" });
  return done.stdout.trim() || done.stderr;
}

it("lets no second process in, nor a second time this one, until it is closed", async () => {
  const store = await openSqlite(path);
  expect(elsewhere()).toBe("InUse");
  await expect(openSqlite(path)).rejects.toBeInstanceOf(InUse);
  // also while it is at work, and it goes on
  await store.append([change("job", new Uint8Array([1]))]);
  expect(elsewhere()).toBe("InUse");
  await store.append([change("job", new Uint8Array([2]))]);
  await store.close();
  expect(elsewhere()).toBe("opened");
});

it("leaves a newer store, a database of something else and rubbish as they are", async () => {
  await (await openSqlite(path)).close();
  const newer = new Database(path, 0);
  newer.exec("PRAGMA user_version = 2");
  newer.close();
  expect(await whyNot(openSqlite(path))).toBe("newer");

  const foreign = join(folder, "foreign.db");
  const other = new Database(foreign, 0);
  other.exec("CREATE TABLE guests (name TEXT)");
  other.close();
  expect(await whyNot(openSqlite(foreign))).toBe("damaged");

  const rubbish = join(folder, "rubbish.db");
  await writeFile(rubbish, "these are my notes of last week ".repeat(200));
  expect(await whyNot(openSqlite(rubbish))).toBe("damaged");
  await mkdir(join(folder, "folder.db"));
  expect(await whyNot(openSqlite(join(folder, "folder.db")))).toBe("other");
});

it("clears away photographs that were not finished, and makes good one that is cut short", async () => {
  await (await openSqlite(path)).close();
  const digest = "039058c6f2c0cb492c533b0a4d14ef77cc0f78abccced5287d84a1a2011cfb81"; // SHA-256 of 1, 2, 3
  await writeFile(join(folder, "blobs", "abc.part"), "half");
  await writeFile(join(folder, "blobs", digest), new Uint8Array([1]));
  const store = await openSqlite(path);
  expect(await readdir(join(folder, "blobs"))).toEqual([digest]);
  await store.putBlob(digest, new Uint8Array([1, 2, 3]));
  expect(await store.blob(digest)).toEqual(new Uint8Array([1, 2, 3]));
  await store.close();
});

it("keeps its log small: half a megabyte of pages, whatever was written", async () => {
  const store = await openSqlite(path);
  for (let i = 0; i < 50; i++) await store.append([change("job", new Uint8Array(100_000))]);
  const database = await import("node:fs/promises").then((fs) => fs.stat(`${path}-wal`));
  expect(database.size).toBeLessThan(1_100_000);
  await store.close();
});
