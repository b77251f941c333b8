import type { Rights } from "../../shared/index.ts";
import { type Records, revise, type ShopStore, shelf } from "../store/index.ts";
import type { Channel } from "./channel.ts";
import { hashOf, newId, type Random, sameHash, typeable, typed } from "./secrets.ts";
import { type Tries, tries } from "./tries.ts";

/** How long a code is good (ms). */
export const CODE_LASTS = 10 * 60 * 1000;
/** How long it is remembered after that, so that whoever comes late is told why. */
const REMEMBERED = 24 * 60 * 60 * 1000;

export interface Code {
  readonly code: string;
  readonly until: number;
}

/** What became of a code that somebody brought. */
export type Judged =
  | { readonly is: "good"; readonly rights: Rights }
  | { readonly is: "used" | "old" | "unknown" | "elsewhere" }
  | { readonly is: "wait"; readonly seconds: number };

export interface Codes {
  /** A new code. `here`: for the shop PC's own browser alone. */
  make(rights: Rights, here?: boolean): Promise<Code>;
  /** Looks at a code and leaves it as it is. */
  look(code: string, from: string, channel: Channel): Promise<Judged>;
  /** Uses it up: of all who bring the same code, one gets "good". */
  use(code: string, from: string, channel: Channel): Promise<Judged>;
  /** Forgets codes that ended long ago. */
  tidy(): Promise<void>;
}

export interface CodesOptions {
  readonly store: ShopStore;
  readonly now: () => number;
  readonly random: Random;
}

/** One-time codes of 128 bits. Only their SHA-256 is kept. */
export function codes({ store, now, random }: CodesOptions): Codes {
  const records = shelf(store, "code");
  const tried: Tries = tries(now, (from) => from.startsWith("127."));

  /** The record of a code; all are compared, and none sooner than another. */
  async function find(code: string): Promise<readonly [id: string, record: Records["code"]] | undefined> {
    const hash = hashOf(typed(code));
    let found: readonly [string, Records["code"]] | undefined;
    for (const entry of await records.all()) if (sameHash(entry[1].hash, hash)) found = entry;
    return found;
  }
  function judge(record: Records["code"], channel: Channel): Judged {
    if (record.used) return { is: "used" };
    if (record.until <= now()) return { is: "old" };
    if (record.here && !channel.loopback) return { is: "elsewhere" };
    return { is: "good", rights: record.rights };
  }
  type Judge = (id: string, record: Records["code"]) => Promise<Judged>;
  /** One after the other: a thousand codes brought at once are not looked at before the first is counted. */
  let last: Promise<unknown> = Promise.resolve();
  function bring(code: string, from: string, judged: Judge): Promise<Judged> {
    const mine = last.then(() => judgedAlone(code, from, judged));
    last = mine.catch(() => {});
    return mine;
  }
  async function judgedAlone(code: string, from: string, judged: Judge): Promise<Judged> {
    const gap = tried.may(from);
    if (gap.is === "wait") return gap;
    const found = await find(code);
    if (found) return judged(...found);
    tried.wrong(from);
    return { is: "unknown" };
  }
  return {
    async make(rights, here = false) {
      const code = typeable(random(16));
      const until = now() + CODE_LASTS;
      await records.put(newId(random), { hash: hashOf(code), rights, until, ...(here ? { here } : {}) });
      return { code, until };
    },
    look: (code, from, channel) => bring(code, from, async (_, record) => judge(record, channel)),
    use: (code, from, channel) =>
      bring(code, from, async (id, record) => {
        const judged = judge(record, channel);
        if (judged.is !== "good") return judged;
        return (await records.swap(id, record, { ...record, used: true })) ? judged : { is: "used" };
      }),
    async tidy() {
      for (const [id, { until }] of await records.all())
        if (until + REMEMBERED < now()) await revise(records, id, () => undefined);
    },
  };
}
