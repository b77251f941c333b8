import { type Records, type Shelf, type ShopStore, shelf } from "../store/index.ts";
import type { Addresses, Reached } from "./addresses.ts";
import { type Asked, derOf, endOf, fingerprintOf, makeAuthority, makeLeaf, type Pair } from "./certify.ts";
import type { Random } from "./secrets.ts";

const DAY = 24 * 60 * 60 * 1000;
/** A certificate is made again so long before it ends (ms). */
const LEAF_EARLY = 30 * DAY;
/** An authority is made again while it still outlasts a certificate. */
const AUTHORITY_EARLY = 398 * DAY;

export interface Authority {
  /** For node:https; the chain with the authority at its end. */
  certificate(): Pair;
  readonly fingerprint: string;
  /** The authority's certificate as a file for a device. */
  file(): Uint8Array<ArrayBuffer>;
  /** Makes a new certificate where the addresses are others now or its end is near. Whether it did. */
  renew(): Promise<boolean>;
  /** Told of each new certificate: for `server.setSecureContext`. */
  onRenewed(listener: (pair: Pair) => void): void;
}

export interface AuthorityOptions {
  readonly store: ShopStore;
  readonly shop: string;
  readonly own: Pick<Addresses, "certified">;
  readonly now: () => number;
  readonly random: Random;
}

/** The shop's own authority, made once, and this machine's certificate by it, both kept among the shop's secrets. */
export async function authority({ store, shop, own, now, random }: AuthorityOptions): Promise<Authority> {
  const secrets = shelf(store, "secret");
  const asked = () => ({ now: now(), random });
  const listeners: ((pair: Pair) => void)[] = [];
  const signing = () => kept(secrets, shop, own.certified().names, asked());
  let root = await signing();
  let current: Records["secret"] = {};

  /** Whether the certificate is another one now. */
  async function renew(): Promise<boolean> {
    root = await signing();
    const reach = allowed(own.certified(), root.names);
    const [addresses, by] = [textOf(reach), fingerprintOf(root.cert)];
    // by the machine: the servers of one shop have each their own addresses
    const id = `leaf ${own.certified().names.at(-1)}`;
    const held = (await secrets.get(id)) ?? {};
    const fits = held.addresses === addresses && held.by === by;
    const lasts = held.cert !== undefined && endOf(held.cert) - now() > LEAF_EARLY;
    const next = fits && lasts ? held : { ...(await makeLeaf(root, reach, asked())), addresses, by };
    if (next !== held) await secrets.put(id, next);
    const isNew = next.cert !== current.cert;
    current = next;
    return isNew;
  }
  await renew();

  const certificate = (): Pair => ({ key: current.key ?? "", cert: `${current.cert}\n${root.cert}\n` });
  return {
    certificate,
    get fingerprint() {
      return fingerprintOf(root.cert);
    },
    file: () => derOf(root.cert),
    async renew() {
      const isNew = await renew();
      if (isNew) for (const tell of listeners) tell(certificate());
      return isNew;
    },
    onRenewed: (listener) => void listeners.push(listener),
  };
}

const textOf = ({ ips, names }: Reached): string => [...names, ...ips].join(" ");

/** An authority vouches for the names that it was made with, and for `.local`: the machine may be called otherwise now. */
const allowed = ({ ips, names }: Reached, known: string): Reached => ({
  ips,
  names: names.filter((name) => name.endsWith(".local") || known.split(" ").includes(name)),
});

type Root = Pair & { readonly names: string };

/** The authority of the shop; the first process that comes makes it, and one near its end is made again. */
async function kept(
  secrets: Shelf<Records["secret"]>,
  shop: string,
  names: readonly string[],
  asked: Asked,
): Promise<Root> {
  for (;;) {
    const held = await secrets.get("authority");
    const { key, cert, names: known = "" } = held ?? {};
    if (key !== undefined && cert !== undefined && endOf(cert) - asked.now > AUTHORITY_EARLY)
      return { key, cert, names: known };
    const made = await makeAuthority(shop, names, asked);
    await secrets.swap("authority", held, { ...made, names: names.join(" ") });
  }
}
