import { randomBytes } from "node:crypto";
import { mkdtempSync, rmSync, writeFileSync } from "node:fs";
import { tmpdir } from "node:os";
import { join } from "node:path";
import { setTimeout as sleep } from "node:timers/promises";
import { beforeAll, describe, expect, it, onTestFinished } from "vitest";
import { type JobDocument, toJson, write } from "../../src/shared/index.ts";
import { postgresBin, startPostgres } from "../support/postgres.ts";
import { buildShop, inProcess, isKept, SMALL, survive } from "./killed.ts";
import { type ShopProcess, shopProcess } from "./process.ts";
import { smallDisk, takeAway } from "./small-disk.ts";

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
const ROUNDS = 4;

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

const disk = smallDisk(6);
it.skipIf(!disk)(
  "a full disk, where a small one can be mounted: said at once, nothing acknowledged is lost, and it goes on when there is room",
  async () => {
    const folder = disk as string;
    writeFileSync(join(folder, "ballast"), new Uint8Array(2_500_000));
    const shop = await shopProcess(folder);
    onTestFinished(async () => {
      await shop.stop();
      takeAway(folder);
    });
    const mine = await inProcess(shop, await shop.pair("PC"), "job", SMALL);
    // a device cannot be paired on a full disk: nothing could be kept of it
    const tablet = await shop.pair("tablet");
    let acknowledged = 0;
    let made = 0;
    /** 60 kB that were not there before, every time: nothing of it can be pressed. */
    const more = (): void => {
      const now = toJson(mine.doc) as { tubes: JobDocument };
      const label = randomBytes(45_000).toString("base64");
      write(mine.doc, { ...now, tubes: { ...now.tubes, [`t${++made}`]: { label } } }, "me");
    };
    const state = (): string => mine.share.state().is;
    for (let i = 0; i < 200 && state() !== "refused"; i++) {
      more();
      while (state() === "saving" || state() === "apart") await sleep(5);
      if (state() === "kept") acknowledged = made;
    }
    expect(mine.share.state()).toEqual({ is: "refused", reason: "full" });
    expect(acknowledged).toBeGreaterThan(3);
    // what is stored is what was acknowledged, and the shop goes on answering
    const other = await inProcess(shop, tablet, "job");
    const tubesOf = ({ doc }: typeof other) => Object.keys((toJson(doc) as { tubes: JobDocument }).tubes);
    expect(tubesOf(other)).toHaveLength(acknowledged);
    rmSync(join(folder, "ballast"));
    await isKept(mine.share);
    await expect.poll(() => tubesOf(other).length, { timeout: 20_000 }).toBe(made);
    for (const device of [mine, other]) device.leave();
  },
  120_000,
);
