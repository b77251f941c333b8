import * as Y from "yjs";
import type { FromShop, Present } from "../../shared/index.ts";
import type { ShopStore, Stored } from "../store/index.ts";
import { type Loaded, loadedFrom } from "./load.ts";
import type { Fate, Queue } from "./queue.ts";

/** One open job of one device. `send` knows the channel. */
export interface Member {
  readonly device: string;
  readonly name: string;
  readonly send: (message: Tell) => void;
  at?: { readonly station: string; readonly bar: string };
}
type WithoutChannel<M> = M extends { readonly channel: number } ? Omit<M, "channel"> : never;
export type Tell = WithoutChannel<FromShop>;

export interface OpenJob extends Loaded {
  readonly id: string;
  readonly members: Set<Member>;
  /** It was deleted: nothing is taken any more. */
  isGone?: boolean;
}

/** Who makes a change. */
export interface Author {
  readonly device: string;
  readonly name: string;
  readonly seen: number;
}

export interface Jobs {
  /** The job in memory; all who ask get the same one. Rejects where the store does not answer. */
  get(id: string): Promise<OpenJob>;
  /** Stores a change, then applies it and sends it on to all but its maker; or does nothing of it and says why. */
  commit(id: string, by: Author, update: Uint8Array, from?: Member): Promise<Fate & { readonly at: number }>;
  /** Changes that another server stored. */
  take(id: string, seqs: readonly number[]): Promise<void>;
  join(job: OpenJob, member: Member): void;
  leave(job: OpenJob, member: Member): void;
  /** Another bar in hand: told to the others, at most once a turn of the loop. */
  moved(job: OpenJob): void;
  /** A job was deleted: whoever has it open is told, and nothing more is taken. */
  end(id: string): Promise<void>;
  /** Forgets what is in memory: it is read anew by whoever asks next. */
  drop(): void;
  /** Jobs in memory now. */
  readonly size: number;
}

export interface JobsPorts {
  readonly store: Pick<ShopStore, "read" | "fetch" | "history">;
  readonly nameOf: (device: string) => Promise<string>;
  readonly queue: Queue;
  readonly now: () => number;
  /** After every stored change. */
  readonly changed: (job: OpenJob) => void;
  /** How long a job that nobody has open stays in memory (ms). */
  readonly linger?: number;
}

/** As many changes as one lost answer may have been about. */
const BEHIND = 1000;

export function jobsOf({ store, nameOf, queue, now, changed, linger = 60_000 }: JobsPorts): Jobs {
  const open = new Map<string, Promise<OpenJob>>();
  const timers = new Map<string, ReturnType<typeof setTimeout>>();
  const due = new Set<OpenJob>();

  function get(id: string): Promise<OpenJob> {
    const known = open.get(id);
    if (known) return known;
    const loading = store.read(id).then((kept) => ({ ...loadedFrom(kept), id, members: new Set<Member>() }));
    open.set(id, loading);
    loading.then(rest, () => {
      if (open.get(id) === loading) open.delete(id);
    });
    return loading;
  }

  /** A job without members goes after a while. */
  function rest(job: OpenJob): void {
    clearTimeout(timers.get(job.id));
    timers.delete(job.id);
    if (job.members.size > 0) return;
    const timer = setTimeout(() => {
      timers.delete(job.id);
      if (job.members.size === 0) open.delete(job.id);
    }, linger);
    timer.unref?.();
    timers.set(job.id, timer);
  }

  function apply(job: OpenJob, stored: Omit<Stored, "job">, by: string, from?: Member): void {
    Y.applyUpdate(job.doc, stored.update, from);
    job.seq = Math.max(job.seq, stored.seq);
    job.at = Math.max(job.at, stored.at);
    const { seq, seen, at, update } = stored;
    for (const member of job.members) {
      if (member !== from) member.send({ is: "change", seq, seen, at, by, update });
    }
    rest(job);
    changed(job);
  }

  /** Whatever is stored behind what this server knows. */
  async function catchUp(id: string): Promise<void> {
    try {
      const job = await open.get(id);
      if (!job) return;
      for (const row of await store.history(id, job.seq, BEHIND)) apply(job, row, await nameOf(row.device));
    } catch {
      // it cannot be told now: whoever opens the job next has it read anew
      open.delete(id);
    }
  }

  return {
    get,
    commit: (id, { device, name, seen }, update, from) =>
      new Promise((resolve) => {
        const at = now();
        queue.put({ job: id, device, at, seen, update }, (fate) => {
          if (!("seq" in fate)) {
            // its answer was lost: it may be stored all the same, and then it is of the job
            if (fate.why === "unreachable") void catchUp(id);
            resolve({ ...fate, at });
            return;
          }
          const stored = { device, at, seen, update, seq: fate.seq };
          // the one in memory now: it may have been read anew since the change came
          const done = (): void => resolve({ ...fate, at });
          get(id)
            .then((job) => apply(job, stored, name, from))
            .then(done, done);
        });
      }),
    async take(id, seqs) {
      const held = open.get(id);
      if (!held) return;
      const rows = await store.fetch(id, seqs);
      const job = await held;
      // some were made one with others meanwhile: whoever takes this job reads it anew
      if (rows.length < seqs.length) throw new Error("compacted");
      const names = await Promise.all(rows.map((row) => nameOf(row.device)));
      rows.forEach((row, i) => {
        apply(job, row, names[i] ?? "");
      });
    },
    join(job, member) {
      job.members.add(member);
      rest(job);
      this.moved(job);
    },
    leave(job, member) {
      if (!job.members.delete(member)) return;
      rest(job);
      this.moved(job);
    },
    moved(job) {
      if (due.has(job)) return;
      due.add(job);
      setImmediate(() => {
        due.delete(job);
        for (const member of job.members) member.send({ is: "present", who: othersThan(member, job) });
      });
    },
    async end(id) {
      const job = await open.get(id);
      if (!job) return;
      open.delete(id);
      job.isGone = true;
      for (const member of job.members) member.send({ is: "refused", n: 0, reason: "gone" });
      job.members.clear();
    },
    drop: () => open.clear(),
    get size() {
      return open.size;
    },
  };
}

const othersThan = (me: Member, job: OpenJob): readonly Present[] =>
  [...job.members].flatMap((m) => (m === me || !m.at ? [] : [{ name: m.name, ...m.at }]));
