import { type ChildProcess, spawn } from "node:child_process";
import { once } from "node:events";
import { readFileSync } from "node:fs";
import { setTimeout as sleep } from "node:timers/promises";
import type { Line } from "../../src/app/model/shop/index.ts";
import { freePort } from "../support/port.ts";
import { lineAt } from "./wire.ts";

/** A shop as a process of its own, started by the command that a person types. */
export interface ShopProcess {
  readonly port: number;
  /** What it has said. */
  readonly said: () => string;
  /** Pairs a device of this machine; its cookie. */
  readonly pair: (name: string) => Promise<string>;
  /** Puts a device out, by its cookie, as another one. */
  readonly putOut: (cookie: string, by: string) => Promise<void>;
  /** The connection of a paired device, tried again for as long as it is not closed. */
  readonly line: (cookie: string) => Line;
  /** Resident memory, MB. */
  readonly memory: () => number;
  /** kill -9. */
  readonly kill: () => Promise<void>;
  /** Starts it anew on the same folder and ports. */
  readonly restart: () => Promise<void>;
  readonly stop: () => Promise<void>;
}

/** Opens a shop on a folder. The command line has to be built (tools/build.mjs), and an app folder beside it. */
export async function shopProcess(folder: string, more: readonly string[] = []): Promise<ShopProcess> {
  const [port, secure] = [await freePort(), await freePort()];
  const args = [
    "bin/tubewright.mjs",
    "serve",
    folder,
    "--shop",
    "--port",
    `${port}`,
    "--secure-port",
    `${secure}`,
  ];
  const host = `127.0.0.1:${port}`;
  let child: ChildProcess | undefined;
  let said = "";

  async function restart(): Promise<void> {
    said = "";
    const mine = spawn(process.execPath, [...args, ...more], { stdio: ["ignore", "pipe", "pipe"] });
    child = mine;
    for (const out of [mine.stdout, mine.stderr]) out?.on("data", (d: Buffer) => (said += d.toString()));
    for (let i = 0; !/\/join\?code=\w+\n/.test(said); i++) {
      if (mine.exitCode !== null || i > 3000) throw new Error(`the shop did not open: ${said}`);
      await sleep(10);
    }
  }
  async function end(signal: "SIGKILL" | "SIGTERM"): Promise<void> {
    if (!child || child.exitCode !== null || child.signalCode !== null) return;
    const over = once(child, "close");
    child.kill(signal);
    await over;
  }
  await restart();
  let cookie = "";
  const send = (path: string, body: unknown, headers: Record<string, string> = {}) =>
    fetch(`http://${host}${path}`, {
      method: "POST",
      redirect: "manual",
      headers: { Origin: `http://${host}`, Cookie: cookie, ...headers },
      body: typeof body === "string" ? body : JSON.stringify(body),
    });

  async function pair(name: string): Promise<string> {
    // the first one by the code that the terminal shows, others by codes of the first
    const first = /\/join\?code=(\w+)\n/.exec(said)?.[1] ?? "";
    const code =
      cookie === ""
        ? first
        : (
            (await (
              await send("/shop/codes", { rights: "all" }, { "Content-Type": "application/json" })
            ).json()) as { code: string }
          ).code;
    const form = new URLSearchParams({ code, name }).toString();
    const answer = await send("/join", form, { "Content-Type": "application/x-www-form-urlencoded" });
    const given = answer.headers.get("set-cookie")?.split(";")[0];
    if (given === undefined) throw new Error(`not paired: ${answer.status} ${await answer.text()}`);
    if (cookie === "") cookie = given;
    return given;
  }

  async function putOut(out: string, by: string): Promise<void> {
    const self = await fetch(`http://${host}/shop`, { headers: { Cookie: out } });
    const { me } = (await self.json()) as { readonly me: { readonly id: string } };
    const answer = await fetch(`http://${host}/shop/devices/${me.id}`, {
      method: "DELETE",
      headers: { Origin: `http://${host}`, Cookie: by, "Content-Type": "application/json" },
      body: "{}",
    });
    if (!answer.ok) throw new Error(`not put out: ${answer.status} ${await answer.text()}`);
  }

  return {
    putOut,
    port,
    said: () => said,
    pair,
    line: (own) => lineAt(port, own),
    memory: () =>
      Number(/VmRSS:\s+(\d+) kB/.exec(readFileSync(`/proc/${child?.pid}/status`, "utf8"))?.[1] ?? 0) / 1024,
    kill: () => end("SIGKILL"),
    restart,
    stop: () => end("SIGTERM"),
  };
}
