import { createHash, randomBytes } from "node:crypto";
import { describe, expect, it } from "vitest";
import { type Served, served } from "./served.ts";

const DAY = 86_400_000;
const job = { name: "Trial frame", file: "trial.json", digest: "d", changed: 5 };

async function withJob(): Promise<{ shop: Served; cookie: string }> {
  const shop = await served();
  await shop.store.put("job", "j1", job);
  return { shop, cookie: await shop.first() };
}

describe("jobs", () => {
  it("are listed, deleted for 30 days and restored", async () => {
    const { shop, cookie } = await withJob();
    const list = async () => (await shop.ask("/shop/jobs", { cookie })).json;
    expect(await list()).toEqual([{ id: "j1", name: "Trial frame", file: "trial.json", changed: 5 }]);
    const deleted = shop.clock.now;
    expect((await shop.send("DELETE", "/shop/jobs/j1", undefined, { cookie })).status).toBe(204);
    shop.clock.now += 1000;
    // a second time changes nothing: the 30 days are not prolonged
    expect((await shop.send("DELETE", "/shop/jobs/j1", undefined, { cookie })).status).toBe(204);
    expect((await list())[0].deleted).toBe(deleted);
    expect((await shop.ask("/shop/jobs/j1/history", { cookie })).status).toBe(409);
    expect((await shop.send("POST", "/shop/jobs/j1/restore", {}, { cookie })).status).toBe(204);
    expect(await shop.store.get("job", "j1")).toEqual(job);
    expect((await shop.send("POST", "/shop/jobs/j1/restore", {}, { cookie })).status).toBe(409);
    expect(shop.news.slice(1)).toEqual(["jobs j1", "jobs j1", "jobs j1"]);
    for (const [method, path] of [
      ["DELETE", "/shop/jobs/none"],
      ["POST", "/shop/jobs/none/restore"],
      ["POST", "/shop/jobs/none/states"],
      ["DELETE", "/shop/jobs/__proto__"],
    ] as const)
      expect((await shop.send(method, path, {}, { cookie })).status).toBe(404);
  });

  it("are removed for good after 30 days, and not before, with their changes and states", async () => {
    const { shop, cookie } = await withJob();
    await shop.store.append([{ job: "j1", device: "d", at: 1, seen: 0, update: new Uint8Array([1]) }]);
    await shop.send("POST", "/shop/jobs/j1/states", { name: "as quoted" }, { cookie });
    await shop.send("DELETE", "/shop/jobs/j1", undefined, { cookie });
    shop.clock.now += 30 * DAY - 1;
    await shop.gate.upkeep();
    expect(await shop.store.read("j1")).toBeDefined();
    shop.clock.now += 1;
    await shop.gate.upkeep();
    expect(await shop.store.read("j1")).toBeUndefined();
    expect((await shop.store.all("job")).size + (await shop.store.all("state")).size).toBe(0);
    // codes that ended a day ago are forgotten with them
    expect((await shop.store.all("code")).size).toBe(0);
  });
});

describe("history and named states", () => {
  it("has who, when and what, in pages", async () => {
    const { shop, cookie } = await withJob();
    const me = (await shop.ask("/shop", { cookie })).json.me.id as string;
    const of = (device: string, n: number) => ({
      job: "j1",
      device,
      at: n,
      seen: 0,
      update: new Uint8Array([n, 255]),
    });
    const seqs = await shop.store.append([of(me, 1), of("folder", 2), of(me, 3)]);
    const page = async (query: string) => (await shop.ask(`/shop/jobs/j1/history${query}`, { cookie })).json;
    expect(await page("?limit=2")).toEqual({
      changes: [
        { seq: seqs[0], by: "shop PC", device: me, at: 1, update: "Af8=" },
        { seq: seqs[1], by: "folder", device: "folder", at: 2, update: "Av8=" },
      ],
      more: true,
    });
    const rest = await page(`?after=${seqs[1]}`);
    expect([rest.changes.map((c: { seq: number }) => c.seq), rest.more]).toEqual([[seqs[2]], false]);
    for (const query of [
      "?limit=0",
      "?limit=1001",
      "?limit=ten",
      "?after=-1",
      "?after=1.5",
      "?limit=",
      "?after=1e3",
    ]) {
      const answer = await shop.ask(`/shop/jobs/j1/history${query}`, { cookie });
      expect([query, answer.status]).toEqual([query, 400]);
      expect(answer.json.error).toMatch(/^(limit|after): give a whole number from/);
    }
  });

  it("keeps the name of a device that was put out", async () => {
    const { shop, cookie } = await withJob();
    await shop.first();
    const [, other] = (await shop.ask("/shop/devices", { cookie })).json;
    await shop.store.append([{ job: "j1", device: other.id, at: 1, seen: 0, update: new Uint8Array([1]) }]);
    await shop.send("DELETE", `/shop/devices/${other.id}`, undefined, { cookie });
    expect((await shop.ask("/shop/jobs/j1/history", { cookie })).json.changes[0].by).toBe("shop PC 2");
  });

  it("names the last change or the one that is given, once a name", async () => {
    const { shop, cookie } = await withJob();
    const state = (body: unknown) => shop.send("POST", "/shop/jobs/j1/states", body, { cookie });
    expect((await state({ name: "as quoted" })).status).toBe(409);
    const change = (n: number) => ({ job: "j1", device: "d", at: n, seen: 0, update: new Uint8Array([n]) });
    const [first, second] = await shop.store.append([change(1), change(2)]);
    const made = await state({ name: "as quoted" });
    expect([made.status, made.json]).toEqual([
      201,
      { id: expect.any(String), name: "as quoted", seq: second, at: shop.clock.now, by: "shop PC" },
    ]);
    expect((await state({ name: "inspected", seq: first })).status).toBe(201);
    expect((await state({ name: "as quoted" })).status).toBe(409);
    expect((await state({ name: "x", seq: (second ?? 0) + 1 })).json.error).toMatch(/^seq: /);
    const list = (await shop.ask("/shop/jobs/j1/states", { cookie })).json;
    expect(list.map((s: { name: string }) => s.name)).toEqual(["inspected", "as quoted"]);
    await shop.store.put("job", "j2", { ...job, name: "Other" });
    const path = `/states/${made.json.id}`;
    expect((await shop.send("DELETE", `/shop/jobs/j2${path}`, undefined, { cookie })).status).toBe(404);
    expect((await shop.send("DELETE", `/shop/jobs/j1${path}`, undefined, { cookie })).status).toBe(204);
    expect((await shop.ask("/shop/jobs/j1/states", { cookie })).json).toHaveLength(1);
    expect(shop.news.filter((n) => n === "states j1")).toHaveLength(3);
  });
});

describe("photographs", () => {
  const digestOf = (bytes: Uint8Array) => createHash("sha256").update(bytes).digest("hex");
  const put = (shop: Served, cookie: string, digest: string, body: Uint8Array) =>
    shop.send("PUT", `/shop/photographs/${digest}`, undefined, {
      cookie,
      body,
      headers: { "Content-Type": "application/octet-stream" },
    });

  it("come back as they went in, as what their bytes are, and never as a page", async () => {
    const { shop, cookie } = await withJob();
    const start = (...text: (string | number[])[]) =>
      Buffer.concat([...text.map((t) => Buffer.from(t as string, "latin1")), randomBytes(64)]);
    for (const [bytes, type, disposition] of [
      [start([0xff, 0xd8, 0xff]), "image/jpeg", /^inline; filename="\w{12}\.jpg"$/],
      [start([0x89], "PNG\r\n", [0x1a, 0x0a]), "image/png", /^inline/],
      [start("RIFF", [1, 0x0a, 3, 4], "WEBPVP8 "), "image/webp", /^inline/],
      [start([0, 0, 0, 24], "ftypheic"), "image/heic", /^inline/],
      [start("<html><script>"), "application/octet-stream", /^attachment; filename="\w{12}\.bin"$/],
      [start("<svg onload="), "application/octet-stream", /^attachment/],
      [start("solid scan"), "application/octet-stream", /^attachment/],
    ] as const) {
      const digest = digestOf(bytes);
      expect((await put(shop, cookie, digest, bytes)).status).toBe(204);
      const back = await shop.ask(`/shop/photographs/${digest}`, { cookie });
      expect(back.bytes.equals(bytes)).toBe(true);
      expect(back.headers["content-type"]).toBe(type);
      expect(back.headers["content-disposition"]).toMatch(disposition);
      expect(back.headers["x-content-type-options"]).toBe("nosniff");
      expect(back.headers["content-security-policy"]).toContain("default-src 'self'");
    }
  });

  it("belong to a job and its bars, and are stored once; taken out of one job they stay in the other", async () => {
    const { shop, cookie } = await withJob();
    const bytes = Buffer.concat([Buffer.from([0xff, 0xd8, 0xff]), randomBytes(64)]);
    const digest = digestOf(bytes);
    const to = (of: string) =>
      shop.send("PUT", `/shop/photographs/${digest}?${of}`, undefined, {
        cookie,
        body: bytes,
        headers: { "Content-Type": "application/octet-stream" },
      });
    expect((await to("job=nobody")).status).toBe(404);
    expect((await shop.ask(`/shop/photographs/${digest}`, { cookie })).status).toBe(404);
    for (const of of ["job=j1&bar=main-hoop", "job=j1&bar=main-hoop", "job=j1"])
      expect((await to(of)).status).toBe(204);
    const list = async (job: string) =>
      (await shop.ask(`/shop/jobs/${job}/photographs`, { cookie })).json as { bar?: string }[];
    expect((await list("j1")).map((p) => p.bar)).toEqual(["main-hoop", undefined]);
    expect((await list("j1"))[0]).toMatchObject({ digest, type: "image/jpeg", size: bytes.length });
    const out = await shop.send("DELETE", `/shop/jobs/j1/photographs/${digest}`, undefined, { cookie });
    expect(out.status).toBe(204);
    expect(await list("j1")).toEqual([]);
    expect((await shop.ask(`/shop/photographs/${digest}`, { cookie })).status).toBe(200);
  });

  it("are not taken with another digest, a name that is none, another type, or over 20 MB", async () => {
    const { shop, cookie } = await withJob();
    const bytes = randomBytes(100);
    expect((await put(shop, cookie, digestOf(randomBytes(9)), bytes)).status).toBe(400);
    for (const name of ["x", digestOf(bytes).toUpperCase(), "..%2f..%2fetc", `${digestOf(bytes)}0`])
      expect((await put(shop, cookie, name, bytes)).status).toBe(400);
    const json = await shop.send("PUT", `/shop/photographs/${digestOf(bytes)}`, {}, { cookie });
    expect(json.status).toBe(415);
    const most = Buffer.alloc(20 * 1024 * 1024, 7);
    expect((await put(shop, cookie, digestOf(most), most)).status).toBe(204);
    const over = Buffer.alloc(most.length + 1, 7);
    const refused = await put(shop, cookie, digestOf(over), over).catch((e: NodeJS.ErrnoException) => e.code);
    // the answer may come while the bytes are still being sent, and the connection ends then
    if (typeof refused === "object") expect(refused.status).toBe(413);
    else expect(["EPIPE", "ECONNRESET"]).toContain(refused);
    expect((await shop.ask(`/shop/photographs/${digestOf(over)}`, { cookie })).status).toBe(404);
    expect((await shop.ask("/shop", { cookie })).status).toBe(200);
  });
});

describe("bad requests", () => {
  it("get one line that names the field and what would be right", async () => {
    const { shop, cookie } = await withJob();
    const [{ id }] = (await shop.ask("/shop/devices", { cookie })).json;
    for (const [method, path, body, line] of [
      ["POST", "/shop/codes", { rights: "some" }, 'rights: give "all" or "marks".'],
      ["POST", "/shop/codes", {}, 'rights: give "all" or "marks".'],
      ["POST", "/shop/codes", { rights: "all", until: 9 }, 'Leave out "until": known here are rights.'],
      ["POST", "/shop/codes", [], "Send one JSON object: the body is none."],
      ["POST", "/shop/codes", null, "Send one JSON object: the body is none."],
      ["PATCH", `/shop/devices/${id}`, {}, "Give one field at least: known here are name, rights."],
      ["PATCH", `/shop/devices/${id}`, { name: 5 }, "name: give a name of 1 to 40 characters."],
      ["PATCH", `/shop/devices/${id}`, { rights: ["all"] }, 'rights: give "all" or "marks".'],
      ["POST", "/shop/jobs/j1/states", { name: "" }, "name: give a name of 1 to 60 characters."],
      [
        "POST",
        "/shop/jobs/j1/states",
        { name: "x", seq: 1.5 },
        "seq: give a whole number from 1 to 9007199254740991.",
      ],
    ] as const) {
      const answer = await shop.send(method, path, body, { cookie });
      expect([body, answer.status, answer.json]).toEqual([body, 400, { error: line }]);
    }
    const broken = await shop.send("POST", "/shop/codes", undefined, { cookie, body: '{"rights":' });
    expect([broken.status, broken.json.error]).toEqual([400, "Send one JSON object: the body is none."]);
    expect((await shop.send("POST", "/shop/nothing", {}, { cookie })).status).toBe(404);
    expect((await shop.send("PROPFIND", "/shop", {}, { cookie })).status).toBe(405);
  });

  it("too long a body is not read to its end, with and without its length", async () => {
    const { shop, cookie } = await withJob();
    const body = JSON.stringify({ rights: "all", more: "x".repeat(5000) });
    expect((await shop.send("POST", "/shop/codes", undefined, { cookie, body })).status).toBe(413);
    const headers = { "Transfer-Encoding": "chunked" };
    const chunked = async (text: string) =>
      (await shop.send("POST", "/shop/codes", undefined, { cookie, body: text, headers })).status;
    expect([await chunked(body), await chunked('{"rights":"marks"}')]).toEqual([413, 200]);
    expect((await shop.join("x".repeat(5000))).status).toBe(413);
  });

  it("a full disk is said, and nothing is taken for done", async () => {
    const { shop, cookie } = await withJob();
    const { code } = await shop.gate.firstCode();
    shop.store.full = true;
    const answer = await shop.send("DELETE", "/shop/jobs/j1", undefined, { cookie });
    expect([answer.status, answer.json.error]).toEqual([
      503,
      expect.stringMatching(/^Make room on the disk/),
    ]);
    const paired = await shop.join(code, "phone");
    expect([paired.status, paired.cookie]).toEqual([503, ""]);
    expect(paired.text).toContain('role="alert">Make room on the disk');
    // who is in stays in
    shop.clock.now += 120_000;
    expect((await shop.ask("/shop", { cookie })).status).toBe(200);
    shop.store.full = false;
    expect((await shop.join(code, "phone")).status).toBe(303);
  });

  it("tells notices, and keeps nothing on the way", async () => {
    const { shop, cookie } = await withJob();
    const answer = await shop.ask("/shop/notices", { cookie });
    expect(answer.json).toEqual([{ at: 7, text: "cage.json was not taken in" }]);
    expect(answer.headers["cache-control"]).toBe("no-store");
    expect((await shop.ask("/shop")).headers["cache-control"]).toBe("no-store");
    expect((await shop.ask("/join")).headers["cache-control"]).toBe("no-store");
  });
});
