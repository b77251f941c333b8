import { createHash } from "node:crypto";
import { mkdirSync, readdirSync, rmSync, writeFileSync } from "node:fs";
import { join } from "node:path";
import { afterAll, describe, expect, it } from "vitest";
import { openPostgres, openSqlite } from "../../src/server/store/index.ts";
import { postgresBin, startPostgres } from "../support/postgres.ts";
import { lost, startWriter, type Writer } from "./killing.ts";
import { killPostgres, killSqlite } from "./rounds.ts";
import { smallDisk, takeAway } from "./small-disk.ts";

const MINUTES = 60_000;

// 30 kills of each take minutes: they run in the bench (`npm run bench shop-killed`)
it("keeps every acknowledged change in SQLite through 10 kills in the middle of appends", {
  timeout: 10 * MINUTES,
}, async () => {
  const { acked, ...bad } = await killSqlite(10);
  expect(bad).toEqual({ lost: 0, torn: 0, damaged: 0 });
  expect(acked).toBeGreaterThan(10 * 5);
});

it.skipIf(!postgresBin())(
  "keeps every acknowledged change in PostgreSQL through 5 kills of it",
  { timeout: 5 * MINUTES },
  async () => {
    const { acked, ...bad } = await killPostgres(5);
    expect(bad).toEqual({ lost: 0, torn: 0, damaged: 0 });
    expect(acked).toBeGreaterThan(5 * 5);
  },
);

const disk = smallDisk(4);
describe.skipIf(!disk)("on a small disk, where one can be mounted", () => {
  afterAll(() => takeAway(disk as string));

  /** Fills it, makes room, fills it again; says what it was told on the way. */
  async function fill(folder: string, writer: Writer): Promise<void> {
    await writer.until(() => writer.refused.length >= 20);
    const before = writer.acked.size;
    expect(new Set(writer.refused)).toEqual(new Set(["full"]));
    expect(before).toBeGreaterThan(100);
    rmSync(join(folder, "ballast"));
    await writer.until(() => writer.acked.size > before + 20);
    await writer.until(() => writer.refused.length >= 60);
    expect(new Set(writer.refused)).toEqual(new Set(["full"]));
    await writer.kill();
  }
  const ballast = (folder: string, bytes: number) =>
    writeFileSync(join(folder, "ballast"), new Uint8Array(bytes));

  it("SQLite says full, loses nothing acknowledged, goes on when there is room, and after a kill while full", async () => {
    const folder = disk as string;
    ballast(folder, 1_500_000);
    const path = join(folder, ".tubewright", "shop.db");
    const writer = await startWriter("sqlite", path, "job");
    await fill(folder, writer);
    const store = await openSqlite(path);
    const { lost: missing, torn } = await lost(store, "job", writer.acked);
    expect([missing, torn]).toEqual([0, 0]);

    const photograph = new Uint8Array(5_000_000);
    const digest = createHash("sha256").update(photograph).digest("hex");
    await expect(store.putBlob(digest, photograph)).rejects.toMatchObject({ name: "NotStored", why: "full" });
    expect(await store.blob(digest)).toBeUndefined();
    expect(readdirSync(join(folder, ".tubewright", "blobs"))).toEqual([]);
    await store.close();
  }, 120_000);

  it.skipIf(!postgresBin())(
    "PostgreSQL does so too, where one is installed",
    async () => {
      const folder = smallDisk(8) as string;
      const postgres = await startPostgres();
      try {
        const tables = join(folder, "tables");
        mkdirSync(tables);
        const url = await postgres.databaseIn(tables);
        ballast(folder, 3_000_000);
        const writer = await startWriter("postgres", url, "job");
        await fill(folder, writer);
        const store = await openPostgres(url, "shop");
        const { lost: missing, torn } = await lost(store, "job", writer.acked);
        expect([missing, torn]).toEqual([0, 0]);
        await store.close();
      } finally {
        await postgres.remove();
        takeAway(folder);
      }
    },
    120_000,
  );
});
