import type { Change, Json, Kept, Kind, ShopStore, Stored } from "../../src/server/store/index.ts";
import { NotStored } from "../../src/server/store/index.ts";

/** A store in memory, for tests of what is built on one. `full`: nothing is taken while it is set. */
export class MemoryStore implements ShopStore {
  full = false;
  readonly records = new Map<Kind, Map<string, string>>();
  readonly #logs = new Map<string, Stored[]>();
  readonly #blobs = new Map<string, Uint8Array>();
  #seq = 0;

  #kind(kind: Kind): Map<string, string> {
    const held = this.records.get(kind) ?? new Map<string, string>();
    this.records.set(kind, held);
    return held;
  }
  /** As a real one: what is asked is done in a later turn. */
  async #turn(writes = false): Promise<void> {
    await new Promise((resolve) => setImmediate(resolve));
    if (writes && this.full) throw new NotStored("full");
  }
  async append(changes: readonly Change[]): Promise<readonly number[]> {
    await this.#turn(true);
    return changes.map((change) => {
      const seq = ++this.#seq;
      this.#logs.set(change.job, [...(this.#logs.get(change.job) ?? []), { ...change, seq }]);
      return seq;
    });
  }
  async read(job: string): Promise<Kept | undefined> {
    await this.#turn();
    const log = this.#logs.get(job);
    return log && { log };
  }
  async fetch(job: string, seqs: readonly number[]): Promise<readonly Stored[]> {
    return (this.#logs.get(job) ?? []).filter((s) => seqs.includes(s.seq));
  }
  async history(job: string, after: number, limit: number): Promise<readonly Stored[]> {
    await this.#turn();
    return (this.#logs.get(job) ?? []).filter((s) => s.seq > after).slice(0, limit);
  }
  async counts(job: string): Promise<{ log: number; all: number }> {
    const all = this.#logs.get(job)?.length ?? 0;
    return { log: all, all };
  }
  async compact(): Promise<boolean> {
    return true;
  }
  async purge(job: string): Promise<void> {
    await this.#turn(true);
    this.#logs.delete(job);
  }
  async get(kind: Kind, id: string): Promise<Json | undefined> {
    await this.#turn();
    const text = this.#kind(kind).get(id);
    return text === undefined ? undefined : (JSON.parse(text) as Json);
  }
  async all(kind: Kind): Promise<ReadonlyMap<string, Json>> {
    await this.#turn();
    return new Map([...this.#kind(kind)].map(([id, text]) => [id, JSON.parse(text) as Json]));
  }
  async put(kind: Kind, id: string, value: Json): Promise<void> {
    await this.#turn(true);
    this.#kind(kind).set(id, JSON.stringify(value));
  }
  async swap(kind: Kind, id: string, was: Json | undefined, value: Json | undefined): Promise<boolean> {
    await this.#turn(true);
    const held = this.#kind(kind).get(id);
    if (held !== (was === undefined ? undefined : JSON.stringify(was))) return false;
    if (value === undefined) this.#kind(kind).delete(id);
    else this.#kind(kind).set(id, JSON.stringify(value));
    return true;
  }
  async remove(kind: Kind, id: string): Promise<void> {
    await this.#turn(true);
    this.#kind(kind).delete(id);
  }
  async putBlob(digest: string, bytes: Uint8Array): Promise<void> {
    await this.#turn(true);
    this.#blobs.set(digest, bytes);
  }
  async blob(digest: string): Promise<Uint8Array | undefined> {
    await this.#turn();
    return this.#blobs.get(digest);
  }
  watch(): void {}
  async close(): Promise<void> {}
}
