import { Hono } from "hono";
import { SHOP } from "../../words/index.ts";
import { revise, shelf } from "../store/index.ts";
import type { GateEnv } from "./env.ts";
import { atMost } from "./fields.ts";
import { typeOfImage } from "./image-type.ts";
import type { Parts } from "./parts.ts";
import { Refused } from "./refused.ts";
import { hashOf } from "./secrets.ts";

/** The longest ID of a bar. */
const MOST_OF_ID = 80;

const MOST = 20 * 1024 * 1024;

/** Photographs and scans by their SHA-256. What is no picture by its first bytes is given out as a file to save, never as a page. */
export function photographAnswers({ news, now, store }: Parts): Hono<GateEnv> {
  const records = shelf(store, "photograph");
  const app = new Hono<GateEnv>();
  app.use("/photographs/:digest", async (c, next) => {
    if (!/^[0-9a-f]{64}$/.test(c.req.param("digest"))) throw new Refused(400, SHOP.wrongDigest);
    return next();
  });
  app.put("/photographs/:digest", atMost(MOST, "20 MB"), async (c) => {
    const digest = c.req.param("digest");
    const [job, bar] = [c.req.query("job"), c.req.query("bar")];
    if (job !== undefined && !(await shelf(store, "job").get(job))) throw new Refused(404, SHOP.noJob);
    const bytes = new Uint8Array(await c.req.arrayBuffer());
    if (hashOf(bytes) !== digest) throw new Refused(400, SHOP.otherDigest);
    await store.putBlob(digest, bytes);
    const type = typeOfImage(bytes)?.type ?? "application/octet-stream";
    const { name: by } = c.get("device");
    // the first device that brought it stays named
    await records.swap(digest, undefined, { type, size: bytes.length, at: now(), by });
    if (job !== undefined) await belongs(digest, job, bar);
    return c.body(null, 204);
  });
  app.get("/photographs/:digest", async (c) => {
    const digest = c.req.param("digest");
    const stored = await store.blob(digest);
    if (!stored) throw new Refused(404, SHOP.noPhotograph);
    const bytes = new Uint8Array(stored);
    const image = typeOfImage(bytes);
    return c.body(bytes, 200, {
      "Content-Type": image?.type ?? "application/octet-stream",
      "Content-Disposition": `${image ? "inline" : "attachment"}; filename="${digest.slice(0, 12)}.${image?.ending ?? "bin"}"`,
    });
  });
  app.get("/jobs/:id/photographs", async (c) => {
    const job = c.req.param("id");
    const found = [...(await records.all())].flatMap(([digest, { of = [], type, size, at, by }]) =>
      of
        .filter((one) => one.job === job)
        .map(({ bar }) => ({ digest, ...(bar === undefined ? {} : { bar }), type, size, at, by })),
    );
    return c.json(found.sort((a, b) => a.at - b.at));
  });
  app.delete("/jobs/:id/photographs/:digest", async (c) => {
    const job = c.req.param("id");
    const was = await revise(records, c.req.param("digest"), (record) => ({
      ...record,
      of: (record.of ?? []).filter((one) => one.job !== job),
    }));
    if (!was) throw new Refused(404, SHOP.noPhotograph);
    news("states", job);
    return c.body(null, 204);
  });
  return app;

  async function belongs(digest: string, job: string, bar?: string): Promise<void> {
    const one = { job, ...(bar === undefined ? {} : { bar: bar.slice(0, MOST_OF_ID) }) };
    await revise(records, digest, (record) => ({
      ...record,
      of: [...(record.of ?? []).filter((o) => o.job !== job || o.bar !== bar), one],
    }));
    news("states", job);
  }
}
