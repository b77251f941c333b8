import type { NetworkInterfaceInfo } from "node:os";
import { describe, expect, it } from "vitest";
import { addresses, type Machine } from "./addresses.ts";
import { channelOf } from "./channel.ts";

const PORTS = { http: 8734, https: 8735 };

const machine = (ips: readonly string[], hostname = "Shop-PC.lan"): Machine => ({
  hostname: () => hostname,
  interfaces: () => ({
    lo: [address("127.0.0.1", true)],
    eth0: ips.map((ip) => address(ip)),
    six: [{ ...address("fd00::2"), family: "IPv6", scopeid: 0 }],
    gone: undefined,
  }),
});
const address = (ip: string, internal = false): NetworkInterfaceInfo => ({
  address: ip,
  netmask: "255.255.255.0",
  family: "IPv4",
  mac: "02:00:00:00:00:01",
  internal,
  cidr: `${ip}/24`,
});

describe("the shop's own addresses", () => {
  it("are those of local networks, each side of their borders (RFC 1918, RFC 3927)", () => {
    const inside = [
      "10.0.0.0",
      "10.255.255.255",
      "172.16.0.1",
      "172.31.255.254",
      "192.168.0.1",
      "169.254.9.9",
    ];
    const outside = [
      "9.255.255.255",
      "11.0.0.0",
      "172.15.0.1",
      "172.32.0.1",
      "192.169.0.1",
      "8.8.8.8",
      "192.0.2.2",
    ];
    const own = addresses(machine([...inside, ...outside]), PORTS);
    expect(own.certified().ips).toEqual(["127.0.0.1", ...inside]);
    for (const ip of inside) expect(own.isOwn(`${ip}:8734`)).toBe(true);
    for (const ip of outside) expect(own.isOwn(`${ip}:8734`)).toBe(false);
  });

  it("are listed by number, then by name, for each listener", () => {
    const own = addresses(machine(["192.168.7.20"]), PORTS);
    expect(own.list(false)).toEqual(["http://192.168.7.20:8734", "http://shop-pc.local:8734"]);
    expect(own.list(true)).toEqual(["https://192.168.7.20:8735", "https://shop-pc.local:8735"]);
    expect(addresses(machine([], "x"), { http: 80, https: 443 }).list(true)).toEqual(["https://x.local"]);
  });

  it("have no name where the machine's is none for a network", () => {
    for (const name of ["", "my pc", "-x", "x-", "ä", "localhost", "x".repeat(64)])
      expect(addresses(machine([], name), PORTS).certified().names).toEqual(["localhost"]);
  });

  it("go with an origin of the very same scheme, name and port", () => {
    const own = addresses(machine(["192.168.7.20"]), PORTS);
    expect(own.isOwn("192.168.7.20:8735", "https://192.168.7.20:8735")).toBe(true);
    expect(own.isOwn("SHOP-PC.local:8734", "http://shop-pc.local:8734")).toBe(true);
    for (const origin of [
      "http://192.168.7.20:8735",
      "https://192.168.7.20:8734",
      "https://192.168.7.20",
      "null",
      "",
      "https://shop-pc.local:8735",
      "https://192.168.7.20:8735/",
      "https://192.168.7.20:8735.evil.example",
    ])
      expect(own.isOwn("192.168.7.20:8735", origin)).toBe(false);
    for (const host of [
      undefined,
      "",
      ":8734",
      "192.168.7.20",
      "192.168.7.20:",
      "192.168.7.20:87340",
      "x y:8734",
    ])
      expect(own.isOwn(host)).toBe(false);
  });

  it("are asked of the machine each time: a cable drawn, an address less", () => {
    const ips = ["192.168.7.20"];
    const own = addresses(machine(ips), PORTS);
    expect(own.isOwn("192.168.7.20:8734")).toBe(true);
    ips[0] = "192.168.8.31";
    expect(own.isOwn("192.168.7.20:8734")).toBe(false);
    expect(own.isOwn("192.168.8.31:8734")).toBe(true);
  });
});

it.each([
  ["127.0.0.1", "127.0.0.1:8734", true],
  ["::ffff:127.0.0.1", "localhost:8734", true],
  // through another program of the machine, a proxy
  ["127.0.0.1", "192.168.7.20:8734", false],
  ["192.168.7.30", "127.0.0.1:8734", false],
  ["::ffff:192.168.7.30", "127.0.0.1:8734", false],
  [undefined, "127.0.0.1:8734", false],
])("a request from %s for %s: from the machine itself %s", (remoteAddress, host, loopback) => {
  const socket = { remoteAddress } as never;
  expect(channelOf({ socket, headers: { host } })).toEqual({ secure: false, loopback });
  const tls = { remoteAddress, encrypted: true } as never;
  expect(channelOf({ socket: tls, headers: { host } })).toEqual({ secure: true, loopback });
});
