import { mkdtempSync, rmSync } from "node:fs";
import { tmpdir } from "node:os";
import { join } from "node:path";
import { setTimeout as sleep } from "node:timers/promises";
import { beforeAll, expect, it, onTestFinished, vi } from "vitest";
import { jobText, toJson, valueAt, write } from "../../src/shared/index.ts";
import { postgresBin, startPostgres } from "../support/postgres.ts";
import { buildShop, inProcess, isKept, SMALL } from "./killed.ts";
import { type ShopProcess, shopProcess } from "./process.ts";

beforeAll(buildShop, 60_000);
const until = (what: () => void) => vi.waitFor(what, { timeout: 20_000, interval: 10 });

it.skipIf(!postgresBin())(
  "two servers of one shop on PostgreSQL: a change on one is seen on the other, also when one is killed and comes back",
  async () => {
    const postgres = await startPostgres();
    onTestFinished(() => postgres.remove());
    const database = await postgres.database();
    const shops: ShopProcess[] = [];
    for (let i = 0; i < 2; i++) {
      const folder = mkdtempSync(join(tmpdir(), "tubewright-servers-"));
      const shop = await shopProcess(folder, ["--database", database, "--name", "both"]);
      shops.push(shop);
      onTestFinished(async () => {
        await shop.stop();
        rmSync(folder, { recursive: true, force: true });
      });
    }
    const [one, two] = shops as [ShopProcess, ShopProcess];
    // paired at one server, a device is known to the other
    const [pc, tablet] = [await one.pair("PC"), await one.pair("tablet")];
    const a = await inProcess(one, pc, "job", SMALL);
    const b = await inProcess(two, tablet, "job");
    const name = (doc: typeof a.doc, to: string): void => write(doc, { ...toJson(doc), name: to }, "me");
    name(a.doc, "from one");
    await until(() => expect(valueAt(b.doc, ["name"])).toBe("from one"));
    name(b.doc, "from two");
    await until(() => expect(valueAt(a.doc, ["name"])).toBe("from two"));

    await one.kill();
    name(b.doc, "while one is dead");
    await isKept(b.share);
    name(a.doc, "apart");
    write(a.doc, { ...toJson(a.doc), tubes: { t1: { od: 40, wall: 2 } } }, "me");
    await one.restart();
    await isKept(a.share);
    await until(() => {
      expect(jobText(toJson(a.doc))).toBe(jobText(toJson(b.doc)));
      expect(valueAt(b.doc, ["tubes", "t1"])).toEqual({ od: 40, wall: 2 });
    });

    // put out at one server, it is out at the other at once
    await one.putOut(tablet, pc);
    await until(() => expect(b.line.state()).toBe("out"));
    await sleep(50);
    for (const device of [a, b]) device.leave();
  },
  180_000,
);
