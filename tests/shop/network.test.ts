import { execFile, execFileSync, spawnSync } from "node:child_process";
import { randomBytes } from "node:crypto";
import { networkInterfaces } from "node:os";
import { promisify } from "node:util";
import { expect, it, onTestFinished } from "vitest";
import { codes } from "../../src/server/gate/codes.ts";
import { served } from "./served.ts";

const ip = (...args: string[]): string => execFileSync("ip", args, { encoding: "utf8" });
const HERE = "10.213.7.1";
const THERE = "10.213.7.2";

/** Whether this machine lets the test make a network of its own (root on Linux). */
const canNetwork = ((): boolean => {
  const name = `tw-try-${process.pid}`;
  if (spawnSync("ip", ["netns", "add", name]).status !== 0) return false;
  return spawnSync("ip", ["netns", "del", name]).status === 0;
})();

/** Another machine on a cable of its own: a network namespace with one address. */
function otherMachine(): (code: string) => Promise<string> {
  const [name, near, far] = [`tw-${process.pid}`, `twa${process.pid}`, `twb${process.pid}`];
  ip("netns", "add", name);
  onTestFinished(() => void spawnSync("ip", ["netns", "del", name]));
  ip("link", "add", near, "type", "veth", "peer", "name", far);
  onTestFinished(() => void spawnSync("ip", ["link", "del", near]));
  ip("link", "set", far, "netns", name);
  ip("addr", "add", `${HERE}/24`, "dev", near);
  ip("link", "set", near, "up");
  ip("-n", name, "addr", "add", `${THERE}/24`, "dev", far);
  ip("-n", name, "link", "set", far, "up");
  // beside this process, which has to answer meanwhile
  const exec = promisify(execFile);
  return async (code) =>
    (await exec("ip", ["netns", "exec", name, process.execPath, "--input-type=module", "-e", code])).stdout;
}

/** A device that is paired and asks who it is and for codes, with Node's own client. */
const device = (base: string, code: string, ca?: string): string => `
import http from "node:http"; import https from "node:https";
const ask = (path, options = {}, body) => new Promise((resolve, reject) => {
  const url = new URL(path, ${JSON.stringify(base)});
  const of = url.protocol === "https:" ? https : http;
  const sent = of.request(url, { ca: ${JSON.stringify(ca ?? "")} || undefined, ...options }, (answer) => {
    let text = "";
    answer.on("data", (d) => { text += d; }).on("end", () => resolve({ status: answer.statusCode, headers: answer.headers, text }));
  });
  sent.on("error", reject); sent.end(body);
});
const origin = new URL(${JSON.stringify(base)}).origin;
const form = { Origin: origin, "Content-Type": "application/x-www-form-urlencoded" };
const joined = await ask("/join", { method: "POST", headers: form }, "code=${code}&name=phone");
const Cookie = (joined.headers["set-cookie"] ?? [""])[0].split(";")[0];
const me = await ask("/shop", { headers: { Cookie } });
const change = await ask("/shop/codes", { method: "POST", headers: { Cookie, Origin: origin, "Content-Type": "application/json" } }, '{"rights":"marks"}');
const who = await ask("/join", { headers: { Host: "127.0.0.1:" + new URL(${JSON.stringify(base)}).port } });
console.log(JSON.stringify({ joined: joined.status, rights: me.status === 200 ? JSON.parse(me.text).me.rights : me.status, change: change.status, asLoopback: who.text.includes("authority.crt") }));
`;

it.skipIf(!canNetwork)(
  "a device with another address reads and marks over http, and has its rights over https",
  async () => {
    const run = otherMachine();
    const shop = await served(HERE);
    expect(
      Object.values(networkInterfaces())
        .flat()
        .some((a) => a?.address === HERE),
    ).toBe(true);
    // as the shop PC's own browser does at 127.0.0.1, where this test does not listen
    const made = codes({ store: shop.store, now: () => shop.clock.now, random: randomBytes });
    const answer = async (secure: boolean, code: string) => {
      const base = `http${secure ? "s" : ""}://${HERE}:${secure ? shop.ports.https : shop.ports.http}`;
      const ca = shop.gate.certificate().cert.split(/(?<=-----END CERTIFICATE-----)\s+/)[1];
      return JSON.parse(await run(device(base, code, secure ? ca : undefined)));
    };
    expect(await answer(false, (await made.make("all")).code)).toEqual({
      joined: 303,
      rights: "marks",
      change: 403,
      asLoopback: true,
    });
    expect(await answer(true, (await made.make("all")).code)).toMatchObject({
      joined: 303,
      rights: "all",
      change: 200,
    });
  },
);
