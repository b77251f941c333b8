import { mkdtempSync, rmSync } from "node:fs";
import { tmpdir } from "node:os";
import { join } from "node:path";
import { beforeAll, describe, expect, it, onTestFinished } from "vitest";
import { postgresBin, startPostgres } from "../support/postgres.ts";
import { buildShop, survive } from "./killed.ts";
import { type ShopProcess, shopProcess } from "./process.ts";

beforeAll(buildShop, 60_000);

async function opened(more: readonly string[] = []): Promise<ShopProcess> {
  const folder = mkdtempSync(join(tmpdir(), "tubewright-shop-"));
  const shop = await shopProcess(folder, more);
  onTestFinished(async () => {
    await shop.stop();
    rmSync(folder, { recursive: true, force: true });
  });
  return shop;
}

/** bench/shop.ts does it 30 times each. */
const ROUNDS = 6;

describe("killed in the middle of changes", { timeout: 180_000 }, () => {
  it("the server: all that was acknowledged is there, and all see the same", async () => {
    const shop = await opened();
    const done = await survive(shop, ROUNDS, async () => {
      await shop.kill();
      await shop.restart();
    });
    expect(done).toMatchObject({ lost: 0, same: true });
    expect(done.acknowledged).toBeGreaterThan(ROUNDS);
  });

  it("a device: the same", async () => {
    const shop = await opened();
    const done = await survive(shop, ROUNDS, (_, again) => again(0));
    expect(done).toMatchObject({ lost: 0, same: true });
    expect(done.acknowledged).toBeGreaterThan(ROUNDS);
  });

  it.skipIf(!postgresBin())("PostgreSQL under it: the same", async () => {
    const postgres = await startPostgres();
    onTestFinished(() => postgres.remove());
    const shop = await opened(["--database", await postgres.database()]);
    const done = await survive(shop, 3, async () => {
      postgres.kill();
      await postgres.start();
    });
    expect(done).toMatchObject({ lost: 0, same: true });
    expect(done.acknowledged).toBeGreaterThan(3);
  });
});

it("a second shop on the folder is refused with one line, and the first goes on", async () => {
  const folder = mkdtempSync(join(tmpdir(), "tubewright-shop-"));
  const shop = await shopProcess(folder);
  onTestFinished(async () => {
    await shop.stop();
    rmSync(folder, { recursive: true, force: true });
  });
  await expect(shopProcess(folder)).rejects.toThrow(/stop the other one first: a shop is open on/);
  expect(await shop.pair("PC")).toMatch(/^tubewright=/);
});
