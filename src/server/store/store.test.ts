import { mkdtemp, rm } from "node:fs/promises";
import { tmpdir } from "node:os";
import { join } from "node:path";
import { afterAll, beforeAll, describe } from "vitest";
import { storeSuite } from "../../../tests/shop/store-suite.ts";
import { type Postgres, postgresBin, startPostgres } from "../../../tests/support/postgres.ts";
import { openPostgres } from "./postgres.ts";
import { openSqlite } from "./sqlite.ts";

storeSuite("SQLite in the folder", async () => {
  const folder = await mkdtemp(join(tmpdir(), "tubewright-store-"));
  return {
    open: () => openSqlite(join(folder, ".tubewright", "shop.db")),
    clear: () => rm(folder, { recursive: true }),
  };
});

describe.skipIf(!postgresBin())("with a PostgreSQL, where one is installed", () => {
  let postgres: Postgres;
  let url: string;
  let made = 0;
  beforeAll(async () => {
    postgres = await startPostgres();
    url = await postgres.database();
  }, 60_000);
  afterAll(() => postgres.remove(), 60_000);

  storeSuite("PostgreSQL, one of many shops", async () => {
    const shop = `shop ${++made}`;
    const neighbour = await openPostgres(url, `next door to ${shop}`);
    for (const job of ["job", "a", "b"])
      await neighbour.append([{ job, device: "d", at: 1, seen: 0, update: new Uint8Array([255]) }]);
    await neighbour.put("device", "d0", "next door's");
    await neighbour.close();
    return { open: () => openPostgres(url, shop), clear: async () => undefined };
  });
});
