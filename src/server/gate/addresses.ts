import { BlockList } from "node:net";
import { hostname, networkInterfaces } from "node:os";
import { HOST } from "../address.ts";

/** What is asked of the machine; handed in, so that a test can move it to another network. */
export interface Machine {
  interfaces(): ReturnType<typeof networkInterfaces>;
  hostname(): string;
}
export const thisMachine: Machine = { interfaces: networkInterfaces, hostname };

export interface Ports {
  readonly http: number;
  readonly https: number;
}

/** Networks of a shop: RFC 1918, and RFC 3927 for a cable without a router. */
export const LOCAL_NETWORKS: readonly (readonly [address: string, bits: number])[] = [
  ["10.0.0.0", 8],
  ["172.16.0.0", 12],
  ["192.168.0.0", 16],
  ["169.254.0.0", 16],
];
const local = new BlockList();
for (const [address, bits] of LOCAL_NETWORKS) local.addSubnet(address, bits);

/** A host name of letters, digits and hyphens (RFC 1123), as certificates and browsers take it. */
const NAME = /^(?!-)[a-z0-9-]{1,63}(?<!-)$/;

/** How other devices reach this machine. */
export interface Reached {
  /** IPv4 addresses on local networks. */
  readonly ips: readonly string[];
  /** The host name, and the same under `.local` (multicast DNS); none where it is no name for a network. */
  readonly names: readonly string[];
}

export function reached(machine: Machine): Reached {
  const all = Object.values(machine.interfaces()).flatMap((list) => list ?? []);
  const ips = all.filter((a) => a.family === "IPv4" && !a.internal && local.check(a.address));
  const name = machine.hostname().toLowerCase().split(".")[0] ?? "";
  const names = NAME.test(name) && name !== "localhost" ? [name, `${name}.local`] : [];
  return { ips: [...new Set(ips.map((a) => a.address))], names };
}

const LOOPBACK_NAMES: readonly string[] = [HOST, "localhost"];
export const isLoopbackName = (name: string): boolean => LOOPBACK_NAMES.includes(name);

/** All that a certificate of this machine has to name. */
export const certified = (machine: Machine): Reached => {
  const { ips, names } = reached(machine);
  return { ips: [HOST, ...ips], names: ["localhost", ...names] };
};

export interface Addresses {
  /**
   * Whether a request is to the shop itself: its `Host` one of the shop's own addresses and ports, its `Origin`, where it
   * has one, exactly that address. A page elsewhere that made a name of its own point here is neither.
   */
  isOwn(host: string | undefined, origin?: string): boolean;
  /** The name in an own `Host` and whether its port is the secure one. */
  parts(host: string | undefined): { readonly name: string; readonly secure: boolean } | undefined;
  /** Addresses for other devices: by number first, by name after. */
  list(secure: boolean): readonly string[];
  /** What a certificate has to name. */
  certified(): Reached;
}

export function addresses(machine: Machine, ports: Ports): Addresses {
  const parts: Addresses["parts"] = (host) => {
    const [, name = "", at] = /^([a-z0-9.-]+)(?::(\d{1,5}))?$/.exec(host?.toLowerCase() ?? "") ?? [];
    const secure = at === undefined ? ports.https === 443 : Number(at) === ports.https;
    if (!secure && (at === undefined ? 80 : Number(at)) !== ports.http) return undefined;
    const { ips, names } = reached(machine);
    return isLoopbackName(name) || [...ips, ...names].includes(name) ? { name, secure } : undefined;
  };
  return {
    parts,
    isOwn(host, origin) {
      const own = parts(host);
      if (!own) return false;
      return origin === undefined || origin === `${scheme(own.secure)}://${host?.toLowerCase()}`;
    },
    list(secure) {
      const { ips, names } = reached(machine);
      const port = secure ? ports.https : ports.http;
      const end = port === (secure ? 443 : 80) ? "" : `:${port}`;
      return [...ips, ...names.filter((n) => n.endsWith(".local"))].map(
        (host) => `${scheme(secure)}://${host}${end}`,
      );
    },
    certified: () => certified(machine),
  };
}

const scheme = (secure: boolean): string => (secure ? "https" : "http");
