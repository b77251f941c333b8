import { Hono } from "hono";
import type { Rights } from "../../shared/index.ts";
import { SHOP } from "../../words/index.ts";
import { atOneAddress, HOST } from "../address.ts";
import { type Addresses, addresses, type Machine, thisMachine } from "./addresses.ts";
import { api } from "./api.ts";
import { type Authority, authority } from "./authority.ts";
import type { Channel } from "./channel.ts";
import { codes } from "./codes.ts";
import { type Asking, type Device, devices } from "./devices.ts";
import type { GateEnv } from "./env.ts";
import { guard, withHeaders } from "./guard.ts";
import { joining } from "./join.ts";
import { pages } from "./pages.ts";
import type { Parts } from "./parts.ts";
import { Refused, refusal } from "./refused.ts";
import { upkeep } from "./upkeep.ts";

export interface GateOptions
  extends Pick<Parts, "store" | "shop" | "appFolder" | "now" | "random" | "news" | "notices" | "ports"> {
  /** The folder of job files. */
  readonly folder: string;
  /** Default: this machine. */
  readonly machine?: Machine;
}

export interface Gate {
  /** For the adaptor of both listeners: it tells them apart by their sockets. */
  readonly fetch: Hono<GateEnv>["fetch"];
  /** Who asks, by the headers of a request or an upgrade; undefined for who is not of the shop. */
  deviceOf(headers: Asking, channel: Channel): Promise<Device | undefined>;
  /** How many devices are in the shop. */
  devices(): Promise<number>;
  /** What a device is called, also one that was put out. */
  nameOf(id: string): Promise<string>;
  readonly isOwn: Addresses["isOwn"];
  /** For the secure listener; `onRenewed` for `server.setSecureContext`. */
  readonly certificate: Authority["certificate"];
  readonly onRenewed: Authority["onRenewed"];
  readonly fingerprint: () => string;
  readonly addresses: Addresses["list"];
  /** What pairs a browser of this machine itself: an address with a code, good for ten minutes and once. */
  firstCode(): Promise<{ readonly code: string; readonly until: number; readonly url: string }>;
  /** A device was put out: its connections end now. */
  onOut(listener: (id: string) => void): void;
  /** A device's rights are others now (as they are on record: `deviceOf` says which hold on a channel). */
  onRights(listener: (id: string, rights: Rights) => void): void;
  /** Another process of this shop changed a record of a device. */
  changedElsewhere(id: string): Promise<void>;
  /** What falls due with time; to be called at the start, every hour, and when the network changes. */
  upkeep(): Promise<void>;
}

/** Who may come into the shop, and the answers to those who did. */
export async function gate({ machine = thisMachine, ...options }: GateOptions): Promise<Gate> {
  const { ports, now, random, shop, store } = options;
  const own = addresses(machine, ports);
  const parts = {
    ...options,
    own,
    authority: await authority({ store, shop, own, now, random }),
    codes: codes({ store, now, random }),
    devices: await devices({ store, now, random }),
  };
  const app = new Hono<GateEnv>();
  app.onError(refusal);
  app.notFound((c) => refusal(new Refused(404, SHOP.nothingHere), c));
  // First, so that whoever answers or refuses after it carries the headers.
  app.use(withHeaders, guard(own), atOneAddress);
  app.route("/", joining(parts));
  app.route("/shop", api(parts));
  app.route("/", pages(parts));
  return {
    fetch: app.fetch,
    deviceOf: parts.devices.deviceOf,
    devices: async () => (await parts.devices.list()).length,
    nameOf: parts.devices.nameOf,
    isOwn: own.isOwn,
    certificate: parts.authority.certificate,
    onRenewed: parts.authority.onRenewed,
    fingerprint: () => parts.authority.fingerprint,
    addresses: own.list,
    async firstCode() {
      const made = await parts.codes.make("all", true);
      return { ...made, url: `http://${HOST}:${ports.http}/join?code=${made.code}` };
    },
    onOut: parts.devices.onOut,
    onRights: parts.devices.onRights,
    changedElsewhere: parts.devices.changedElsewhere,
    upkeep: () => upkeep(parts),
  };
}
