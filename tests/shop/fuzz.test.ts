import { describe, expect, it, vi } from "vitest";
import * as Y from "yjs";
import { type Share, share } from "../../src/app/model/shop/index.ts";
import { seeded } from "../../src/core/numeric/index.ts";
import { faulty } from "../../src/server/store/faulty.ts";
import {
  BadFrame,
  deviceFrames,
  type FromDevice,
  type JobDocument,
  jobText,
  shopFrames,
  toJson,
  write,
} from "../../src/shared/index.ts";
import { socketPair, testShop } from "./in-memory.ts";
import { MemoryStore } from "./memory-store.ts";

const until = (what: () => void | Promise<void>) => vi.waitFor(what, { timeout: 30_000, interval: 10 });
const small: JobDocument = { format: "tubewright job", version: 2, name: "fuzz", tubes: {}, bars: {} };

/** Messages of all kinds, for a fuzzer to spoil. */
function messages(): readonly FromDevice[] {
  const doc = new Y.Doc();
  write(doc, small, "me");
  const update = Y.encodeStateAsUpdate(doc);
  return [
    { is: "hello", protocol: 1 },
    { is: "open", channel: 1, job: "job-1", vector: Y.encodeStateVector(doc), seen: 0, isNew: true },
    { is: "open", channel: 2, job: "../outside", vector: new Uint8Array([0]), seen: 0, isNew: true },
    { is: "change", channel: 1, n: 1, seen: 0, update },
    { is: "change", channel: 9, n: 1, seen: 0, update },
    { is: "at", channel: 1, station: "bender", bar: "x" },
    { is: "leave", channel: 1 },
  ];
}

function spoilt(frame: Uint8Array, random: () => number): Uint8Array {
  const bytes = [...frame];
  const at = () => Math.floor(random() * bytes.length);
  for (let i = 0; i < 1 + random() * 6; i++) {
    const how = random();
    if (how < 0.4) bytes[at()] = Math.floor(random() * 256);
    else if (how < 0.6) bytes.splice(at(), 1 + Math.floor(random() * 8));
    else if (how < 0.8) bytes.splice(at(), 0, ...Array.from({ length: 3 }, () => Math.floor(random() * 256)));
    else bytes.length = Math.max(1, at());
  }
  return Uint8Array.from(bytes);
}

describe("the messages", () => {
  it("come back as they were, and nothing else is taken for one (seed 1, 20,000 spoilt)", () => {
    for (const message of messages())
      expect(deviceFrames.decode(deviceFrames.encode(message))).toEqual(message);
    const random = seeded(1);
    const frames = messages().map((m) => deviceFrames.encode(m));
    let refused = 0;
    for (let i = 0; i < 20_000; i++) {
      const frame = spoilt(frames[i % frames.length] as Uint8Array, random);
      for (const coder of [deviceFrames, shopFrames]) {
        try {
          coder.decode(frame);
        } catch (error) {
          expect(error).toBeInstanceOf(BadFrame);
          refused++;
        }
      }
    }
    expect(refused).toBeGreaterThan(10_000);
  });

  it("a length that cannot be makes room for nothing", () => {
    const huge = Uint8Array.from([5, 1, 255, 255, 255, 255, 15]);
    expect(() => shopFrames.decode(huge)).toThrow(BadFrame);
  });
});

it.each([11, 12, 13])(
  "rubbish ends its own connection alone: nobody else's, and nothing of it is stored (seed %i)",
  async (seed) => {
    const faults: unknown[] = [];
    const onFault = (error: unknown): void => void faults.push(error);
    process.on("unhandledRejection", onFault);
    const random = seeded(seed);
    const shop = await testShop();
    const doc = new Y.Doc();
    write(doc, small, "me");
    const good = shop.device({ device: "good", name: "Good" });
    const mine = share({ doc, job: "job-1", line: good.line, isNew: true, seen: 0 });
    await until(() => expect(mine.state().is).toBe("kept"));
    const frames = messages().map((m) => deviceFrames.encode(m));
    for (let i = 0; i < 300; i++) {
      const { device, shop: end, cut } = socketPair();
      shop.hub.connect(end, { device: "bad", name: "Bad", rights: i % 2 ? "all" : "marks" });
      const count = 1 + Math.floor(random() * frames.length);
      for (let k = 0; k < count; k++) {
        const frame = frames[k] as Uint8Array;
        device.send((random() < 0.5 ? spoilt(frame, random) : frame) as Uint8Array<ArrayBuffer>);
      }
      await new Promise((resolve) => setImmediate(resolve));
      if (random() < 0.5) cut();
    }
    write(doc, { ...toJson(doc), name: "still here" }, "me");
    await until(() => expect(mine.state().is).toBe("kept"));
    expect(good.line.state()).toBe("up");
    // whoever opens it now sees what the good device sees
    const other = new Y.Doc();
    const second = share({
      doc: other,
      job: "job-1",
      line: shop.device({ device: "b" }).line,
      isNew: false,
      seen: 0,
    });
    expect(await second.opened).toBe(true);
    await until(() => expect(jobText(toJson(other))).toBe(jobText(toJson(doc))));
    const kept = await shop.store.read("job-1");
    for (const { update } of kept?.log ?? []) expect(() => Y.applyUpdate(new Y.Doc(), update)).not.toThrow();
    expect(faults).toEqual([]);
    process.off("unhandledRejection", onFault);
  },
);

it.each([21, 22, 23])(
  "on a store that refuses, loses answers and waits: what is acknowledged is stored, and all end the same (seed %i)",
  async (seed) => {
    const random = seeded(seed);
    const inner = new MemoryStore();
    let isBad = false;
    const bad = faulty(inner, random, { refuse: 0.15, tear: 0.1, twice: 0, wait: 4 });
    const store = new Proxy(inner, {
      get: (target, key) => {
        const of = isBad ? (bad as object) : target;
        const value = Reflect.get(of, key) as unknown;
        return typeof value === "function" ? value.bind(of) : value;
      },
    });
    const shop = await testShop({ store });
    const docs = Array.from({ length: 4 }, () => new Y.Doc());
    write(docs[0] as Y.Doc, small, "me");
    const devices = docs.map((_, i) => shop.device({ device: `d${i}`, name: `Device ${i}` }));
    const shares: Share[] = [];
    for (const [i, doc] of docs.entries()) {
      shares.push(share({ doc, job: "job-1", line: devices[i]!.line, isNew: i === 0, seen: 0 }));
      await until(() => expect(shares[i]?.state().is).toBe("kept"));
    }
    /** What each device was told is stored: the names of tubes. */
    const acknowledged = new Set<string>();
    isBad = true;
    for (let i = 0; i < 60; i++) {
      const k = Math.floor(random() * docs.length);
      const doc = docs[k] as Y.Doc;
      const job = toJson(doc) as { tubes: JobDocument };
      write(doc, { ...job, tubes: { ...job.tubes, [`t${i}`]: { od: i } } }, "me");
      if (random() < 0.15) devices[k]!.cut();
      if (random() < 0.3) await new Promise((resolve) => setTimeout(resolve, random() * 30));
      for (const [n, one] of shares.entries())
        if (one.state().is === "kept")
          for (const tube of Object.keys((toJson(docs[n] as Y.Doc) as { tubes: JobDocument }).tubes))
            acknowledged.add(tube);
    }
    isBad = false;
    for (const { line } of devices) line.retry();
    await until(() => {
      for (const one of shares) expect(one.state().is).toBe("kept");
      expect(new Set(docs.map((d) => jobText(toJson(d)))).size).toBe(1);
    });
    const doc = new Y.Doc();
    for (const { update } of (await inner.read("job-1"))?.log ?? []) Y.applyUpdate(doc, update);
    const stored = (toJson(doc) as { tubes: JobDocument }).tubes;
    expect(Object.keys(stored)).toHaveLength(60);
    expect([...acknowledged].filter((t) => !Object.hasOwn(stored, t))).toEqual([]);
    expect(acknowledged.size).toBeGreaterThan(5);
  },
);
