import { mkdtemp, rm } from "node:fs/promises";
import { tmpdir } from "node:os";
import { join } from "node:path";
import { openSqlite } from "./sqlite.ts";
import { storeSuite } from "./store.suite.ts";

storeSuite("SQLite in the folder", async () => {
  const folder = await mkdtemp(join(tmpdir(), "tubewright-store-"));
  return {
    open: () => openSqlite(join(folder, ".tubewright", "shop.db")),
    clear: () => rm(folder, { recursive: true }),
  };
});
