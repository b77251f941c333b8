import { execFileSync, spawnSync } from "node:child_process";
import { randomBytes, X509Certificate } from "node:crypto";
import { once } from "node:events";
import { mkdtempSync, rmSync, writeFileSync } from "node:fs";
import { createServer, get } from "node:https";
import type { AddressInfo } from "node:net";
import { tmpdir } from "node:os";
import { join } from "node:path";
import { describe, expect, it, onTestFinished } from "vitest";
import { MemoryStore } from "../../../tests/shop/memory-store.ts";
import type { Reached } from "./addresses.ts";
import { type Authority, authority } from "./authority.ts";
import { makeLeaf } from "./certify.ts";

const DAY = 86_400_000;
const reach: Reached = {
  ips: ["127.0.0.1", "192.168.7.20"],
  names: ["localhost", "shop-pc", "shop-pc.local"],
};

/** A shop's authority on a machine whose addresses and clock a test can move. */
async function made(
  store = new MemoryStore(),
  at: { now: number; reach: Reached } = { now: Date.now(), reach },
) {
  const random = (n: number): Uint8Array => randomBytes(n);
  const own = { certified: () => at.reach };
  return { at, store, it: await authority({ store, shop: "Weld & Bend", own, now: () => at.now, random }) };
}

/** The certificates as files, for the openssl command. */
function files(cert: string): { readonly leaf: string; readonly root: string } {
  const folder = mkdtempSync(join(tmpdir(), "tubewright-"));
  onTestFinished(() => rmSync(folder, { recursive: true }));
  const [leaf = "", root = ""] = cert.split(/(?<=-----END CERTIFICATE-----)\s+/);
  writeFileSync(join(folder, "leaf.pem"), leaf);
  writeFileSync(join(folder, "root.pem"), root);
  return { leaf: join(folder, "leaf.pem"), root: join(folder, "root.pem") };
}
const openssl = (...args: string[]): string => execFileSync("openssl", args, { encoding: "utf8" });
const days = (cert: string): number => {
  const { validFrom, validTo } = new X509Certificate(cert);
  return (Date.parse(validTo) - Date.parse(validFrom)) / DAY;
};

describe("the shop's authority, read by the openssl command", () => {
  it("signs a server for all its addresses, names and days", async () => {
    const { it: shop } = await made();
    const { cert } = shop.certificate();
    const { leaf, root } = files(cert);
    for (const as of [
      ["-verify_ip", "127.0.0.1"],
      ["-verify_ip", "192.168.7.20"],
      ["-verify_hostname", "shop-pc.local"],
      ["-verify_hostname", "shop-pc"],
      ["-verify_hostname", "localhost"],
    ])
      expect(
        openssl("verify", "-x509_strict", "-purpose", "sslserver", "-CAfile", root, ...as, leaf),
      ).toContain("OK");
    const other = ["verify", "-CAfile", root, "-verify_ip", "192.168.7.21", leaf];
    expect(spawnSync("openssl", other, { encoding: "utf8" }).stderr).toContain("IP address mismatch");
    expect(openssl("x509", "-in", root, "-noout", "-ext", "basicConstraints")).toContain(
      "CA:TRUE, pathlen:0",
    );
    expect(openssl("x509", "-in", leaf, "-noout", "-ext", "extendedKeyUsage").trim()).toMatch(
      /TLS Web Server Authentication$/,
    );
    expect(openssl("x509", "-in", root, "-noout", "-text")).toContain("NIST CURVE: P-256");
    expect(days(cert)).toBeLessThan(398);
    expect(days(cert)).toBeGreaterThan(390);
  });

  it("has the fingerprint that openssl finds in the file for devices", async () => {
    const { it: shop } = await made();
    const folder = mkdtempSync(join(tmpdir(), "tubewright-"));
    onTestFinished(() => rmSync(folder, { recursive: true }));
    writeFileSync(join(folder, "authority.crt"), shop.file());
    const found = openssl(
      "x509",
      "-inform",
      "DER",
      "-in",
      join(folder, "authority.crt"),
      "-noout",
      "-fingerprint",
      "-sha256",
    );
    expect(found.trim().split("=")[1]).toBe(shop.fingerprint);
  });

  it("cannot vouch for a place outside the shop", async () => {
    const { it: shop, store, at } = await made();
    const root = JSON.parse(store.records.get("secret")?.get("authority") ?? "");
    const asked = { now: at.now, random: randomBytes };
    const text = openssl("x509", "-in", files(shop.certificate().cert).root, "-noout", "-text");
    expect(text).toContain("X509v3 Name Constraints: critical");
    for (const net of [
      "127.0.0.0/255.0.0.0",
      "10.0.0.0/255.0.0.0",
      "172.16.0.0/255.240.0.0",
      "192.168.0.0/255.255.0.0",
      "169.254.0.0/255.255.0.0",
    ])
      expect(text).toContain(`IP:${net}`);
    for (const wrong of [
      { ips: [], names: ["bank.example"] },
      { ips: ["8.8.8.8"], names: ["localhost"] },
      { ips: ["172.32.0.1"], names: [] },
    ]) {
      const pair = await makeLeaf(root, wrong, asked);
      const at = files(`${pair.cert}\n${root.cert}`);
      const said = spawnSync("openssl", ["verify", "-CAfile", at.root, at.leaf], { encoding: "utf8" });
      expect(said.stderr).toContain("permitted subtree violation");
    }
  });
});

describe("renewal", () => {
  it("the authority and the certificate are the same ones after a restart", async () => {
    const { it: first, store } = await made();
    const { it: second } = await made(store);
    expect(second.certificate()).toEqual(first.certificate());
    expect(second.fingerprint).toBe(first.fingerprint);
  });

  it("a certificate is made again 30 days before its end, and when the addresses change; the authority stays", async () => {
    const { it: shop, at } = await made();
    const { fingerprint } = shop;
    const told: string[] = [];
    shop.onRenewed(({ cert }) => told.push(cert));
    const first = shop.certificate().cert;
    at.now += 365 * DAY;
    expect(await shop.renew()).toBe(false);
    at.now += 2 * DAY;
    expect(await shop.renew()).toBe(true);
    const second = shop.certificate().cert;
    expect(second).not.toBe(first);
    expect(days(second)).toBeLessThan(398);
    at.reach = { ...at.reach, ips: ["127.0.0.1", "10.1.2.3"] };
    expect(await shop.renew()).toBe(true);
    expect(await shop.renew()).toBe(false);
    expect(new X509Certificate(shop.certificate().cert).subjectAltName).toContain("IP Address:10.1.2.3");
    expect(told).toEqual([second, shop.certificate().cert]);
    expect(shop.fingerprint).toBe(fingerprint);
  });

  it("a machine with another name keeps its authority, which vouches for the .local name alone", async () => {
    const { it: shop, at } = await made();
    at.reach = { ips: at.reach.ips, names: ["localhost", "garage", "garage.local"] };
    await shop.renew();
    const { leaf, root } = files(shop.certificate().cert);
    expect(openssl("verify", "-CAfile", root, "-verify_hostname", "garage.local", leaf)).toContain("OK");
    expect(new X509Certificate(shop.certificate().cert).subjectAltName).not.toMatch(/DNS:garage(,|$)/);
  });

  it("an authority near its end is made again before its certificates outlast it", async () => {
    const { it: shop, at } = await made();
    const { fingerprint } = shop;
    at.now += 9 * 365 * DAY;
    await shop.renew();
    expect(shop.fingerprint).not.toBe(fingerprint);
    const { leaf, root } = files(shop.certificate().cert);
    const then = String(Math.floor(at.now / 1000) + 396 * 86_400 - 100);
    expect(openssl("verify", "-attime", then, "-CAfile", root, leaf)).toContain("OK");
  });

  it("two servers that start at once have one authority", async () => {
    const store = new MemoryStore();
    const both = await Promise.all([made(store), made(store)]);
    expect(both[0].it.fingerprint).toBe(both[1].it.fingerprint);
  });
});

it("Node's own TLS client trusts it by IP, and a running server takes the next certificate", async () => {
  const { it: shop, at } = await made();
  const server = createServer({ ...shop.certificate(), keepAlive: false }, (_, answer) => answer.end("in"));
  shop.onRenewed((pair) => server.setSecureContext(pair));
  server.listen(0, "127.0.0.1");
  await once(server, "listening");
  onTestFinished(() => void server.close());
  const { port } = server.address() as AddressInfo;
  const first = await ask(port, shop);
  at.reach = { ...at.reach, ips: ["127.0.0.1", "192.168.7.33"] };
  await shop.renew();
  const second = await ask(port, shop);
  expect(first).not.toBe(second);
  await expect(ask(port)).rejects.toThrow(/self.signed|unable to (get|verify)/i);
});

/** Serial number of the certificate that the server showed. */
function ask(port: number, shop?: Authority): Promise<string> {
  const ca = shop ? [shop.certificate().cert.split(/(?<=-----END CERTIFICATE-----)\s+/)[1] ?? ""] : [];
  return new Promise((resolve, reject) => {
    const request = get({ host: "127.0.0.1", port, agent: false, ...(shop ? { ca } : {}) }, (answer) => {
      const { serialNumber } = (answer.socket as import("node:tls").TLSSocket).getPeerCertificate();
      answer.resume().on("end", () => resolve(serialNumber));
    });
    request.on("error", reject);
  });
}
