import type { Rights } from "../../shared/index.ts";
import type { Json, Kind, ShopStore } from "./port.ts";

/** What the shop keeps beside the jobs, by kind. Times are milliseconds since 1970. */
export type Records = {
  device: {
    readonly name: string;
    readonly rights: Rights;
    readonly made: number;
    readonly seen: number;
    /** SHA-256 of its secret, in hex; empty when it was put out. */
    readonly key: string;
    /** When it was put out. Its name stays for the history. */
    readonly out?: number;
  };
  code: {
    /** SHA-256 of the code, in hex. */
    readonly hash: string;
    readonly rights: Rights;
    readonly until: number;
    /** It pairs a browser of the shop PC itself alone. */
    readonly here?: true;
    readonly used?: true;
  };
  job: {
    readonly name: string;
    readonly file?: string;
    /** Nothing of it is stored yet. */
    readonly empty?: true;
    readonly changed: number;
    readonly deleted?: number;
  };
  state: {
    readonly job: string;
    readonly name: string;
    readonly seq: number;
    readonly at: number;
    /** Name of the device. */
    readonly by: string;
  };
  photograph: {
    readonly type: string;
    readonly size: number;
    readonly at: number;
    readonly by: string;
    /** The jobs that it belongs to, and the bar that it shows. */
    readonly of?: readonly { readonly job: string; readonly bar?: string }[];
  };
  secret: { readonly [field: string]: string };
};

export interface Shelf<T> {
  get(id: string): Promise<T | undefined>;
  all(): Promise<ReadonlyMap<string, T>>;
  put(id: string, value: T): Promise<void>;
  swap(id: string, was: T | undefined, value: T | undefined): Promise<boolean>;
}

/** One kind of records of a store. What lies under a kind was put there by this program: its shape is taken as given. */
export function shelf<K extends Kind>(store: ShopStore, kind: K): Shelf<Records[K]> {
  type T = Records[K];
  return {
    get: async (id) => (await store.get(kind, id)) as T | undefined,
    all: async () => (await store.all(kind)) as unknown as ReadonlyMap<string, T>,
    put: (id, value) => store.put(kind, id, value as Json),
    swap: (id, was, value) => store.swap(kind, id, was as Json | undefined, value as Json | undefined),
  };
}

/** Changes a record whoever else does so at the same moment; what was there before, undefined where nothing is. */
export async function revise<T>(
  records: Shelf<T>,
  id: string,
  change: (was: T) => T | undefined,
): Promise<T | undefined> {
  for (;;) {
    const was = await records.get(id);
    if (was === undefined) return undefined;
    const value = change(was);
    if (value === was || (await records.swap(id, was, value))) return was;
  }
}
