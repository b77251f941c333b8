import { generateSignedCookie } from "hono/cookie";
import { parse, parseSigned } from "hono/utils/cookie";
import type { Rights } from "../../shared/index.ts";
import { type Records, revise, type ShopStore, shelf } from "../store/index.ts";
import type { Channel } from "./channel.ts";
import { base64url, hashOf, newId, type Random, sameHash } from "./secrets.ts";

/** A device that may come in, and what it may do the way it came. */
export interface Device {
  readonly id: string;
  readonly name: string;
  readonly rights: Rights;
}

/** A device as it is listed. */
export type Listed = Pick<Records["device"], "name" | "rights" | "made" | "seen"> & { readonly id: string };

/** Headers of a request, those of node:http too. */
export interface Asking {
  readonly cookie?: string | undefined;
}

export interface Devices {
  /** Takes a device in; what it gets as `Set-Cookie`. */
  pair(
    name: string,
    rights: Rights,
    channel: Channel,
  ): Promise<{ readonly id: string; readonly cookie: string }>;
  deviceOf(headers: Asking, channel: Channel): Promise<Device | undefined>;
  /** The cookie of a device that is known, for as long again. */
  renewed(headers: Asking, channel: Channel): Promise<string | undefined>;
  list(): Promise<readonly Listed[]>;
  /** Name of a device, also of one that was put out. */
  nameOf(id: string): Promise<string>;
  /** Whether there is such a device. */
  change(id: string, change: { readonly name?: string; readonly rights?: Rights }): Promise<boolean>;
  putOut(id: string): Promise<boolean>;
  onOut(listener: (id: string) => void): void;
  onRights(listener: (id: string, rights: Rights) => void): void;
  /** Another process of the shop changed a device. */
  changedElsewhere(id: string): Promise<void>;
}

export interface DevicesOptions {
  readonly store: ShopStore;
  readonly now: () => number;
  readonly random: Random;
}

const NAME = "tubewright";
/** Browsers keep a cookie for 400 days at most. */
const LASTS = 400 * 24 * 60 * 60;
const SEEN_EVERY = 60_000;

/** A device keeps a random secret in a signed cookie; the shop keeps its SHA-256. */
export async function devices({ store, now, random }: DevicesOptions): Promise<Devices> {
  const records = shelf(store, "device");
  const signing = await signingKey(store, random);
  const outListeners: ((id: string) => void)[] = [];
  const rightsListeners: ((id: string, rights: Rights) => void)[] = [];

  const cookie = (value: string, { secure }: Channel): Promise<string> =>
    generateSignedCookie(NAME, value, signing, {
      ...(secure ? { prefix: "host" as const, secure } : {}),
      httpOnly: true,
      sameSite: "Strict",
      path: "/",
      maxAge: LASTS,
    });
  /** The signed value of a request's cookie. It names the way it was given: one read off the plain network is none over TLS. */
  async function signedValue(headers: Asking, { secure }: Channel): Promise<string | undefined> {
    const name = secure ? `__Host-${NAME}` : NAME;
    const cookies = headers.cookie ?? "";
    const value = (await parseSigned(cookies, signing, name))[name];
    const valid = typeof value === "string" && isCanonical(parse(cookies, name)[name] ?? "");
    return valid && value.startsWith(`${way(secure)}.`) ? value : undefined;
  }
  async function known(value: string | undefined): Promise<(Records["device"] & { id: string }) | undefined> {
    const [, id = "", secret = ""] = value?.split(".") ?? [];
    const record = id === "" ? undefined : await records.get(id);
    return record && sameHash(record.key, hashOf(secret)) ? { ...record, id } : undefined;
  }
  return {
    async pair(name, rights, channel) {
      const [id, secret] = [newId(random), base64url(random(32))];
      const given = mayDo(rights, channel);
      const made = now();
      const free = freeName(name, await listed(records));
      await records.put(id, { name: free, rights: given, made, seen: made, key: hashOf(secret) });
      return { id, cookie: await cookie(`${way(channel.secure)}.${id}.${secret}`, channel) };
    },
    async deviceOf(headers, channel) {
      const device = await known(await signedValue(headers, channel));
      if (!device) return undefined;
      const { id, name, rights } = device;
      if (now() - device.seen >= SEEN_EVERY)
        // a disk that is full keeps nobody out
        await revise(records, id, (was) => ({ ...was, seen: now() })).catch(() => {});
      return { id, name, rights: mayDo(rights, channel) };
    },
    async renewed(headers, channel) {
      const value = await signedValue(headers, channel);
      return value !== undefined && (await known(value)) ? cookie(value, channel) : undefined;
    },
    list: () => listed(records),
    nameOf: async (id) => (await records.get(id))?.name ?? id,
    async change(id, change) {
      const was = await revise(records, id, (r) => (r.out === undefined ? { ...r, ...change } : r));
      if (!was || was.out !== undefined) return false;
      const { rights } = change;
      if (rights !== undefined && rights !== was.rights) for (const tell of rightsListeners) tell(id, rights);
      return true;
    },
    async putOut(id) {
      const was = await revise(records, id, (r) => (r.out === undefined ? { ...r, key: "", out: now() } : r));
      if (!was || was.out !== undefined) return false;
      for (const tell of outListeners) tell(id);
      return true;
    },
    onOut: (listener) => void outListeners.push(listener),
    onRights: (listener) => void rightsListeners.push(listener),
    async changedElsewhere(id) {
      const record = await records.get(id);
      if (!record || record.out !== undefined) for (const tell of outListeners) tell(id);
      else for (const tell of rightsListeners) tell(id, record.rights);
    },
  };
}

/** Base64 has bits to spare in its last letter: a signature that differs in them alone is no other way to write it. */
function isCanonical(cookie: string): boolean {
  const signature = cookie.slice(cookie.lastIndexOf(".") + 1);
  return Buffer.from(signature, "base64").toString("base64") === signature;
}

const way = (secure: boolean): string => (secure ? "tls" : "plain");

/** Over plain http from elsewhere a device reads and marks progress, whatever it may do otherwise. */
const mayDo = (rights: Rights, { secure, loopback }: Channel): Rights =>
  secure || loopback ? rights : "marks";

async function listed(records: {
  all(): Promise<ReadonlyMap<string, Records["device"]>>;
}): Promise<Listed[]> {
  return [...(await records.all())]
    .filter(([, record]) => record.out === undefined)
    .map(([id, { name, rights, made, seen }]) => ({ id, name, rights, made, seen }))
    .sort((a, b) => a.made - b.made);
}

/** The name, counted up where another device has it: people tell devices apart by it. */
function freeName(name: string, others: readonly Listed[]): string {
  const taken = new Set(others.map((other) => other.name));
  let free = name;
  for (let n = 2; taken.has(free); n++) free = `${name} ${n}`;
  return free;
}

async function signingKey(store: ShopStore, random: Random): Promise<string> {
  const secrets = shelf(store, "secret");
  // the first process of a shop that comes puts it there
  await secrets.swap("cookie", undefined, { key: base64url(random(32)) });
  const { key = "" } = (await secrets.get("cookie")) ?? {};
  if (key === "") throw new Error("the shop has no key for its cookies");
  return key;
}
