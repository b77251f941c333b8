import { once } from "node:events";
import { mkdtempSync, rmSync } from "node:fs";
import { tmpdir } from "node:os";
import { join } from "node:path";
import { afterAll, beforeAll, expect, it } from "vitest";
import { WebSocket } from "ws";
import * as Y from "yjs";
import {
  deviceFrames,
  type FromDevice,
  type JobDocument,
  LONGEST,
  PROTOCOL,
  toJson,
  write,
} from "../../src/shared/index.ts";
import { buildShop, inProcess, isKept, SMALL } from "./killed.ts";
import { type ShopProcess, shopProcess } from "./process.ts";

const folder = mkdtempSync(join(tmpdir(), "tubewright-shop-"));
let shop: ShopProcess;
let mine: Awaited<ReturnType<typeof inProcess>>;
let other = "";

beforeAll(async () => {
  buildShop();
  shop = await shopProcess(folder);
  mine = await inProcess(shop, await shop.pair("PC"), "job", SMALL);
  other = await shop.pair("other");
}, 60_000);
afterAll(async () => {
  mine?.leave();
  await shop?.stop();
  rmSync(folder, { recursive: true, force: true });
});

async function socket(headers: Record<string, string> = {}): Promise<WebSocket> {
  const host = `127.0.0.1:${shop.port}`;
  const ws = new WebSocket(`ws://${host}/shop/line`, {
    headers: { Cookie: other, Origin: `http://${host}`, ...headers },
  });
  await once(ws, "open");
  return ws;
}
const send = (ws: WebSocket, message: FromDevice): void => ws.send(deviceFrames.encode(message));
const closed = async (ws: WebSocket): Promise<number> => (await once(ws, "close"))[0] as number;
/** Whoever did nothing wrong goes on. */
async function goesOn(): Promise<void> {
  write(mine.doc, { ...toJson(mine.doc), name: `at ${performance.now()}` }, "me");
  await isKept(mine.share);
}

it("a message that is too long, of text, of rubbish, or before the greeting ends its own connection", async () => {
  for (const [wrong, code] of [
    [new Uint8Array(LONGEST + 1), 1009],
    ["hello", 1007],
    [Uint8Array.from([250, 1, 2]), 1007],
    [deviceFrames.encode({ is: "leave", channel: 1 }), 1007],
  ] as const) {
    const ws = await socket();
    ws.send(wrong);
    expect(await closed(ws)).toBe(code);
  }
  const old = await socket();
  send(old, { is: "hello", protocol: PROTOCOL + 1 });
  expect(await closed(old)).toBe(4426);
  await goesOn();
});

it("without the cookie, with another's, from another page or under another name there is no connection", async () => {
  const host = `127.0.0.1:${shop.port}`;
  for (const headers of [
    { Cookie: "" },
    { Cookie: `${other.slice(0, -2)}xx` },
    { Origin: "http://elsewhere.example" },
    { Origin: `https://${host}` },
    { Host: `elsewhere.example:${shop.port}` },
  ])
    await expect(socket(headers as Record<string, string>)).rejects.toThrow(/40[13]/);
  await goesOn();
});

it("a device that takes nothing is cut off before the shop's memory grows", async () => {
  const slow = await socket();
  send(slow, { is: "hello", protocol: PROTOCOL });
  const vector = Y.encodeStateVector(new Y.Doc());
  send(slow, { is: "open", channel: 1, job: "job", vector, seen: 0, isNew: false });
  await once(slow, "message");
  await goesOn();
  slow.pause();
  const before = shop.memory();
  let isCut = false;
  slow.on("close", () => {
    isCut = true;
  });
  // 400 kB a change, 40 MB in all, each in place of the one before
  for (let i = 0; i < 100; i++) {
    const label = `${i}`.repeat(100_000 / `${i}`.length);
    const bars = { x: { label: label.repeat(4) } } as JobDocument;
    write(mine.doc, { ...toJson(mine.doc), bars }, "me");
    await isKept(mine.share);
  }
  const grew = shop.memory() - before;
  slow.resume();
  await expect.poll(() => isCut, { timeout: 10_000 }).toBe(true);
  // what the document itself keeps of 100 changes is dropped; the shop held back 4 MB for the slow one
  expect(grew).toBeLessThan(120);
  await goesOn();
}, 120_000);
