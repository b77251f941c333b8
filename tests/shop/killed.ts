import { type ChildProcess, execFileSync, spawn } from "node:child_process";
import { once } from "node:events";
import { existsSync, mkdirSync, mkdtempSync, rmSync, writeFileSync } from "node:fs";
import { tmpdir } from "node:os";
import { join } from "node:path";
import { setTimeout as sleep } from "node:timers/promises";
import { fileURLToPath } from "node:url";
import { buildSync } from "esbuild";
import * as Y from "yjs";
import { type Line, type Share, share } from "../../src/app/model/shop/index.ts";
import { type JobDocument, jobText, toJson, write } from "../../src/shared/index.ts";
import type { ShopProcess } from "./process.ts";

/** A device (device.ts) and how many of its changes it was told are in the shop. */
export interface DeviceProcess {
  readonly name: string;
  readonly kept: () => number;
  readonly kill: () => Promise<void>;
}

let device: string | undefined;
function built(): string {
  if (device) return device;
  const folder = mkdtempSync(join(tmpdir(), "tubewright-device-"));
  process.once("exit", () => rmSync(folder, { recursive: true, force: true }));
  device = join(folder, "device.mjs");
  buildSync({
    entryPoints: [fileURLToPath(new URL("device.ts", import.meta.url))],
    outfile: device,
    bundle: true,
    platform: "node",
    format: "esm",
    banner: {
      js: 'import { createRequire } from "node:module"; const require = createRequire(import.meta.url);',
    },
  });
  return device;
}

export async function deviceProcess(
  shop: ShopProcess,
  cookie: string,
  job: string,
  name: string,
): Promise<DeviceProcess> {
  const child: ChildProcess = spawn(process.execPath, [built(), `${shop.port}`, cookie, job, name], {
    stdio: ["ignore", "pipe", "inherit"],
  });
  let [kept, isOpen, rest] = [0, false, ""];
  child.stdout?.on("data", (data: Buffer) => {
    const lines = (rest + data.toString()).split("\n");
    rest = lines.pop() ?? "";
    for (const line of lines) {
      if (line === "open") isOpen = true;
      else kept = Number(line.split(" ")[1]);
    }
  });
  const over = once(child, "close");
  for (let i = 0; !isOpen; i++) {
    if (child.exitCode !== null || i > 3000) throw new Error("the device did not open the job");
    await sleep(10);
  }
  return {
    name,
    kept: () => kept,
    kill: async () => {
      child.kill("SIGKILL");
      await over;
    },
  };
}

/** The command line as it is built, and what stands for the app beside it: what a shop serves is of no interest here. */
export function buildShop(): void {
  execFileSync(process.execPath, ["tools/build.mjs"]);
  mkdirSync("dist/app", { recursive: true });
  if (!existsSync("dist/app/index.html")) writeFileSync("dist/app/index.html", "<!doctype html>");
}

export const SMALL: JobDocument = {
  format: "tubewright job",
  version: 2,
  name: "killed",
  tubes: {},
  bars: {},
};

/** A device of this process, with a job of its own or one of the shop. */
export async function inProcess(
  shop: ShopProcess,
  cookie: string,
  job: string,
  start?: JobDocument,
): Promise<{
  readonly doc: Y.Doc;
  readonly share: Share;
  readonly line: Line;
  readonly leave: () => void;
}> {
  const doc = new Y.Doc();
  if (start) write(doc, start, "me");
  const line = shop.line(cookie);
  const one = share({ doc, job, line, isNew: start !== undefined, seen: 0 });
  if (!(await one.opened)) throw new Error("the shop does not open the job");
  await isKept(one);
  return {
    doc,
    share: one,
    line,
    leave: () => {
      one.leave();
      line.close();
    },
  };
}

export async function isKept(one: Share, most = 30_000): Promise<void> {
  for (const end = Date.now() + most; one.state().is !== "kept"; await sleep(5))
    if (Date.now() > end) throw new Error(`not in the shop: ${JSON.stringify(one.state())}`);
}

export interface Survived {
  readonly rounds: number;
  /** Changes that a device was told are in the shop. */
  readonly acknowledged: number;
  /** Those of them that a fresh device does not see afterwards. */
  readonly lost: number;
  /** Whether all who are left see the same. */
  readonly same: boolean;
}

/**
 * Two devices change a job without end, a third one does now and then with the shop out of reach; `blow` strikes again
 * and again in the middle. Then a fresh device looks what is there.
 */
export async function survive(
  shop: ShopProcess,
  rounds: number,
  blow: (devices: DeviceProcess[], again: (i: number) => Promise<void>) => Promise<void>,
): Promise<Survived> {
  const job = "killed";
  const owner = await shop.pair("owner");
  const mine = await inProcess(shop, owner, job, SMALL);
  const cookies = [await shop.pair("a"), await shop.pair("b")];
  let count = 0;
  const start = (i: number) => deviceProcess(shop, cookies[i] ?? "", job, `d${i}x${count++}`);
  const devices = [await start(0), await start(1)];
  const ended: { readonly name: string; readonly kept: number }[] = [];
  const again = async (i: number): Promise<void> => {
    const device = devices[i] as DeviceProcess;
    await device.kill();
    ended.push({ name: device.name, kept: device.kept() });
    devices[i] = await start(i);
  };
  let own = 0;
  for (let i = 0; i < rounds; i++) {
    // not before something was acknowledged since the last blow, and then at any moment
    const [first] = devices as [DeviceProcess];
    const had = first.kept();
    for (const end = Date.now() + 20_000; first.kept() === had && Date.now() < end; ) await sleep(5);
    await sleep((i * 37) % 90);
    const now = toJson(mine.doc) as { tubes: JobDocument };
    write(mine.doc, { ...now, tubes: { ...now.tubes, [`own-${++own}`]: { od: own, wall: 2 } } }, "me");
    await blow(devices, again);
  }
  for (const device of devices) {
    await device.kill();
    ended.push({ name: device.name, kept: device.kept() });
  }
  await isKept(mine.share);
  const fresh = await inProcess(shop, await shop.pair("fresh"), job);
  const tubes = (toJson(fresh.doc) as { tubes: JobDocument }).tubes;
  const wanted = [
    ...ended.flatMap(({ name, kept }) => Array.from({ length: kept }, (_, n) => `${name}-${n + 1}`)),
    ...Array.from({ length: own }, (_, n) => `own-${n + 1}`),
  ];
  for (let i = 0; i < 100 && jobText(toJson(mine.doc)) !== jobText(toJson(fresh.doc)); i++) await sleep(20);
  const same = jobText(toJson(mine.doc)) === jobText(toJson(fresh.doc));
  for (const one of [mine, fresh]) one.leave();
  return {
    rounds,
    acknowledged: wanted.length,
    lost: wanted.filter((name) => !Object.hasOwn(tubes, name)).length,
    same,
  };
}
