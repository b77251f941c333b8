import { readFileSync } from "node:fs";
import { describe, expect, it, vi } from "vitest";
import * as Y from "yjs";
import { type GaveWay, type Share, share } from "../../src/app/model/shop/index.ts";
import { fromJson, type JobDocument, jobText, toJson, valueAt, write } from "../../src/shared/index.ts";
import { type TestDevice, testShop } from "./in-memory.ts";
import { MemoryStore } from "./memory-store.ts";

const demo = JSON.parse(readFileSync("demo/sandling.json", "utf8")) as JobDocument;
const until = (what: () => void | Promise<void>) => vi.waitFor(what, { timeout: 10_000, interval: 5 });

function joined(device: TestDevice, doc: Y.Doc, more: { isNew?: boolean; seen?: number } = {}) {
  const gave: GaveWay[] = [];
  let seen = more.seen ?? 0;
  const it: Share = share({
    doc,
    job: "job-1",
    line: device.line,
    isNew: more.isNew ?? false,
    seen,
    onSeen: (seq) => {
      seen = seq;
    },
    onGaveWay: (what) => gave.push(...what),
  });
  return { share: it, doc, gave, seen: () => seen };
}

const setName = (doc: Y.Doc, name: string): void => write(doc, { ...toJson(doc), name }, "me");
const bar = (doc: Y.Doc, id: string, key: string, value: string): void => {
  const job = toJson(doc) as { bars: Record<string, JobDocument> };
  write(doc, { ...job, bars: { ...job.bars, [id]: { ...job.bars[id], [key]: value } } }, "me");
};

async function twoDevices() {
  const shop = await testShop();
  const a = shop.device({ device: "a", name: "Shop PC" });
  const b = shop.device({ device: "b", name: "Tablet, bender" });
  const pc = joined(a, fromJson(demo), { isNew: true });
  await until(() => expect(pc.share.state().is).toBe("kept"));
  const tablet = joined(b, new Y.Doc());
  expect(await tablet.share.opened).toBe(true);
  return { shop, a, b, pc, tablet };
}

describe("two devices in one job", () => {
  it("see each other's changes, and each is told when its own are stored", async () => {
    const { shop, pc, tablet } = await twoDevices();
    expect(jobText(toJson(tablet.doc))).toBe(jobText(toJson(pc.doc)));
    setName(tablet.doc, "Sandling, second");
    expect(tablet.share.state().is).toBe("saving");
    await until(() => expect(toJson(pc.doc).name).toBe("Sandling, second"));
    await until(() => expect(tablet.share.state().is).toBe("kept"));
    const kept = await shop.store.read("job-1");
    const doc = new Y.Doc();
    for (const { update } of kept?.log ?? []) Y.applyUpdate(doc, update);
    expect(toJson(doc).name).toBe("Sandling, second");
    expect(pc.seen()).toBe(tablet.seen());
  });

  it("work on apart and lose nothing; whose change gave way is told by whom", async () => {
    const { a, b, pc, tablet } = await twoDevices();
    for (const d of [a, b]) {
      d.up = false;
      d.cut();
    }
    await until(() => expect(pc.share.state().is).toBe("apart"));
    await until(() => expect(tablet.share.state().is).toBe("apart"));
    bar(pc.doc, "main-hoop", "label", "Hoop of the PC");
    bar(pc.doc, "header-bar", "label", "Header of the PC");
    bar(tablet.doc, "main-hoop", "label", "Hoop of the tablet");
    bar(tablet.doc, "harness-bar", "label", "Harness of the tablet");
    expect(pc.share.state()).toEqual({ is: "apart", unsent: true });
    for (const d of [a, b]) {
      d.up = true;
      d.line.retry();
    }
    await until(() => {
      expect(pc.share.state().is).toBe("kept");
      expect(tablet.share.state().is).toBe("kept");
      expect(jobText(toJson(pc.doc))).toBe(jobText(toJson(tablet.doc)));
    });
    const bars = toJson(pc.doc).bars as Record<string, JobDocument>;
    expect(bars["header-bar"]?.label).toBe("Header of the PC");
    expect(bars["harness-bar"]?.label).toBe("Harness of the tablet");
    const told = [pc, tablet].flatMap((d) =>
      d.gave.map((g) => [d === pc ? "pc" : "tablet", g.by, g.path.join(".")]),
    );
    const winner = bars["main-hoop"]?.label === "Hoop of the PC" ? "Shop PC" : "Tablet, bender";
    const loser = winner === "Shop PC" ? "tablet" : "pc";
    expect(told).toEqual([[loser, winner, "bars.main-hoop.label"]]);
  });

  it("at once on one part: both see the same, one of both is told, and nobody who had seen the other's", async () => {
    const { pc, tablet } = await twoDevices();
    setName(pc.doc, "by the PC");
    setName(tablet.doc, "by the tablet");
    await until(() => {
      expect(pc.share.state().is).toBe("kept");
      expect(tablet.share.state().is).toBe("kept");
      expect(toJson(pc.doc).name).toBe(toJson(tablet.doc).name);
    });
    await until(() => expect(pc.gave.length + tablet.gave.length).toBe(1));
    // one after the other is nobody's loss
    setName(pc.doc, "again by the PC");
    await until(() => expect(toJson(tablet.doc).name).toBe("again by the PC"));
    setName(tablet.doc, "again by the tablet");
    await until(() => expect(toJson(pc.doc).name).toBe("again by the tablet"));
    expect(pc.gave.length + tablet.gave.length).toBe(1);
  });

  it("see who has which bar in hand, until that one is gone", async () => {
    const { b, pc, tablet } = await twoDevices();
    tablet.share.at("bender", "main-hoop");
    const here = [{ name: "Tablet, bender", station: "bender", bar: "main-hoop" }];
    await until(() => expect(pc.share.present()).toEqual(here));
    b.up = false;
    b.cut();
    await until(() => expect(pc.share.present()).toEqual([]));
    b.up = true;
    b.line.retry();
    await until(() => expect(pc.share.present()).toEqual(here));
  });
});

describe("acknowledged is stored", () => {
  it("a store that refuses: nothing is applied elsewhere, it is said, and it is sent again", async () => {
    const store = new MemoryStore();
    const shop = await testShop({ store });
    const pc = joined(shop.device({ device: "a" }), fromJson(demo), { isNew: true });
    await until(() => expect(pc.share.state().is).toBe("kept"));
    const tablet = joined(shop.device({ device: "b", name: "Tablet" }), new Y.Doc());
    await tablet.share.opened;
    store.full = true;
    setName(pc.doc, "not stored");
    await until(() => expect(pc.share.state()).toEqual({ is: "refused", reason: "full" }));
    expect(toJson(tablet.doc).name).not.toBe("not stored");
    setName(pc.doc, "not stored either");
    store.full = false;
    await until(() => expect(pc.share.state().is).toBe("kept"));
    await until(() => expect(toJson(tablet.doc).name).toBe("not stored either"));
  });
});

describe("a device that may mark progress alone", () => {
  it("marks; an edit of it is refused and reaches nobody", async () => {
    const { shop, pc } = await twoDevices();
    const phone = joined(shop.device({ device: "c", name: "Phone", rights: "marks" }), new Y.Doc());
    await phone.share.opened;
    bar(phone.doc, "main-hoop", "progress", "sawn");
    await until(() => expect(valueAt(pc.doc, ["bars", "main-hoop", "progress"])).toBe("sawn"));
    bar(phone.doc, "main-hoop", "label", "mine now");
    await until(() => expect(phone.share.state()).toEqual({ is: "refused", reason: "not allowed" }));
    expect(valueAt(pc.doc, ["bars", "main-hoop", "label"])).not.toBe("mine now");
  });
});

it("what a reconnect brings along that the shop has already makes no row", async () => {
  const { shop, a, pc } = await twoDevices();
  bar(pc.doc, "main-hoop", "label", "x");
  write(pc.doc, { ...toJson(pc.doc), order: [] }, "me");
  await until(() => expect(pc.share.state().is).toBe("kept"));
  const rows = (await shop.store.read("job-1"))?.log.length;
  for (let i = 0; i < 3; i++) {
    a.cut();
    await until(() => expect(a.line.state()).toBe("down"));
    a.line.retry();
    await until(() => expect(pc.share.state().is).toBe("kept"));
  }
  expect((await shop.store.read("job-1"))?.log.length).toBe(rows);
});
