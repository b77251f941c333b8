import { randomBytes } from "node:crypto";
import { once } from "node:events";
import { mkdirSync, mkdtempSync, rmSync, symlinkSync, writeFileSync } from "node:fs";
import { type IncomingHttpHeaders, request as overHttp, type Server } from "node:http";
import { createServer as createSecureServer, request as overHttps } from "node:https";
import type { AddressInfo } from "node:net";
import { type NetworkInterfaceInfo, tmpdir } from "node:os";
import { join } from "node:path";
import { createAdaptorServer } from "@hono/node-server";
import { onTestFinished } from "vitest";
import { type Gate, gate, type Machine } from "../../src/server/gate/index.ts";
import { MemoryStore } from "./memory-store.ts";

/** The address on the shop's network that the machine of these tests says it has. */
export const LAN = "192.168.7.20";

/** An interface as node:os lists it. */
export const wired = (address: string, internal = false): NetworkInterfaceInfo => ({
  address,
  netmask: "255.255.255.0",
  family: "IPv4",
  mac: "02:00:00:00:00:01",
  internal,
  cidr: `${address}/24`,
});

export interface Ask {
  readonly method?: string;
  readonly secure?: boolean;
  /** Default: 127.0.0.1 and the port. */
  readonly host?: string;
  readonly headers?: Readonly<Record<string, string>>;
  readonly cookie?: string;
  readonly body?: string | Uint8Array;
}

export interface Answer {
  readonly status: number;
  readonly headers: IncomingHttpHeaders;
  readonly bytes: Buffer;
  readonly text: string;
  /** The body as JSON. */
  // biome-ignore lint/suspicious/noExplicitAny: a test says what it expects
  readonly json: any;
}

export interface Served {
  readonly gate: Gate;
  readonly store: MemoryStore;
  readonly clock: { now: number };
  readonly machine: { ips: string[]; name: string };
  readonly news: string[];
  readonly ports: { readonly http: number; readonly https: number };
  ask(path: string, ask?: Ask): Promise<Answer>;
  /** As a page of the shop does it: own origin, JSON. */
  send(method: string, path: string, body?: unknown, ask?: Ask): Promise<Answer>;
  /** Sends the form of the join page; the answer, and the cookie as a browser keeps it. */
  join(code: string, name?: string, ask?: Ask): Promise<Answer & { readonly cookie: string }>;
  /** A device with all rights on this machine itself; its cookie. */
  first(): Promise<string>;
}

/** The gate behind a real http and a real https listener on 127.0.0.1. */
export async function served(listen = "127.0.0.1", store = new MemoryStore()): Promise<Served> {
  const root = mkdtempSync(join(tmpdir(), "tubewright-"));
  onTestFinished(() => rmSync(root, { recursive: true, force: true }));
  mkdirSync(join(root, "app", "assets"), { recursive: true });
  writeFileSync(
    join(root, "app", "index.html"),
    '<!doctype html><link rel="icon" href="data:,"><title>the app</title>',
  );
  writeFileSync(join(root, "app", "assets", "main-abc.js"), "1");
  writeFileSync(join(root, "secret.txt"), "secret");
  symlinkSync(join(root, "secret.txt"), join(root, "app", "link.txt"));

  let behind: Gate | undefined;
  const fetch: Gate["fetch"] = (...args) => behind!.fetch(...args);
  const plain = createAdaptorServer({ fetch: fetch as never }) as Server;
  const tls = createAdaptorServer({ fetch: fetch as never, createServer: createSecureServer }) as Server;
  const ports = { http: await started(plain, listen), https: await started(tls, listen) };
  const [clock, news] = [{ now: Date.UTC(2026, 10, 30) }, [] as string[]];
  const machine = { ips: listen === "127.0.0.1" ? [LAN] : [listen], name: "shop-pc" };
  behind = await gate({
    store,
    shop: "Weld & Bend",
    appFolder: join(root, "app"),
    folder: root,
    now: () => clock.now,
    random: (n) => randomBytes(n),
    news: (of, job) => void news.push(job === undefined ? of : `${of} ${job}`),
    notices: () => [{ at: 7, text: "cage.json was not taken in" }],
    ports,
    machine: asked(machine),
  });
  (tls as ReturnType<typeof createSecureServer>).setSecureContext(behind.certificate());
  const ask = asking(behind, ports, listen);
  return { gate: behind, store, clock, machine, news, ports, ask, ...sending(behind, ports, ask) };
}

const asked = (machine: Served["machine"]): Machine => ({
  interfaces: () => ({ lo: [wired("127.0.0.1", true)], eth0: machine.ips.map((ip) => wired(ip)) }),
  hostname: () => machine.name,
});

async function started(server: Server, host: string): Promise<number> {
  server.listen(0, host);
  await once(server, "listening");
  onTestFinished(() => {
    server.close();
    server.closeAllConnections();
  });
  return (server.address() as AddressInfo).port;
}

function asking(of: Gate, ports: Served["ports"], listen: string): Served["ask"] {
  return (path, { method = "GET", secure = false, host, headers = {}, cookie, body } = {}) =>
    new Promise((resolve, reject) => {
      const port = secure ? ports.https : ports.http;
      const ca = of.certificate().cert.split(/(?<=-----END CERTIFICATE-----)\s+/)[1] ?? "";
      const chunked = headers["Transfer-Encoding"] !== undefined;
      const length =
        body === undefined || chunked ? {} : { "Content-Length": String(Buffer.byteLength(body)) };
      const sent = (secure ? overHttps : overHttp)(
        {
          host: listen,
          port,
          path,
          method,
          agent: false,
          ca,
          headers: {
            Host: host ?? `${listen}:${port}`,
            ...length,
            ...(cookie === undefined ? {} : { Cookie: cookie }),
            ...headers,
          },
        },
        (answer) =>
          void answer.toArray().then((parts: Buffer[]) => {
            const bytes = Buffer.concat(parts);
            const text = bytes.toString();
            resolve({
              status: answer.statusCode ?? 0,
              headers: answer.headers,
              bytes,
              text,
              get json() {
                return JSON.parse(text) as unknown;
              },
            });
          }, reject),
      );
      sent.on("error", reject);
      sent.end(body);
    });
}

function sending(of: Gate, ports: Served["ports"], ask: Served["ask"]) {
  const origin = ({ secure = false, host }: Ask): string =>
    `http${secure ? "s" : ""}://${host ?? `127.0.0.1:${secure ? ports.https : ports.http}`}`;
  const join: Served["join"] = async (code, name = "tablet, bender", options = {}) => {
    const answer = await ask("/join", {
      method: "POST",
      body: new URLSearchParams({ code, name }).toString(),
      ...options,
      headers: {
        "Content-Type": "application/x-www-form-urlencoded",
        Origin: origin(options),
        ...options.headers,
      },
    });
    return Object.assign(answer, { cookie: answer.headers["set-cookie"]?.[0]?.split(";")[0] ?? "" });
  };
  return {
    join,
    send: (method: string, path: string, body?: unknown, options: Ask = {}) =>
      ask(path, {
        method,
        ...(body === undefined ? {} : { body: JSON.stringify(body) }),
        ...options,
        headers: { "Content-Type": "application/json", Origin: origin(options), ...options.headers },
      }),
    first: async () => (await join((await of.firstCode()).code, "shop PC")).cookie,
  };
}
