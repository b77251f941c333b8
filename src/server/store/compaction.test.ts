import { mkdtemp, rm } from "node:fs/promises";
import { tmpdir } from "node:os";
import { join } from "node:path";
import fc from "fast-check";
import { describe, expect, it } from "vitest";
import * as Y from "yjs";
import { compact, ENOUGH, isDue, joined, MANY, QUIET } from "./compaction.ts";
import type { Base, ShopStore, Stored } from "./port.ts";
import { openSqlite } from "./sqlite.ts";

const HOUR = 3_600_000;
const START = Date.UTC(2026, 2, 2, 8);

/** What one device does next: edits one of eight entries (or takes it out) or a list, or hears of the others. */
interface Step {
  readonly device: number;
  readonly does: "set" | "take out" | "add" | "drop" | "hear";
  readonly key: number;
  /** Minutes until the next step. */
  readonly wait: number;
}
const steps = (maxLength: number): fc.Arbitrary<Step[]> =>
  fc.array(
    fc.record({
      device: fc.nat(2),
      does: fc.constantFrom("set", "set", "take out", "add", "drop", "hear"),
      key: fc.nat(7),
      wait: fc.constantFrom(0, 1, 7, 29, 100),
    }),
    { minLength: 1, maxLength },
  );

function act(doc: Y.Doc, { does, key }: Step, i: number): void {
  const [map, list] = [doc.getMap<Y.Map<number>>("bars"), doc.getArray<number>("readings")];
  if (does === "set") {
    const bar = map.get(`${key}`) ?? map.set(`${key}`, new Y.Map());
    bar.set(`${i % 3}`, i);
  } else if (does === "take out") map.delete(`${key}`);
  else if (does === "add") list.insert(Math.min(key, list.length), [i]);
  else if (list.length > 0) list.delete(Math.min(key, list.length - 1), 1);
}

/** Three devices at work, each hearing of the others now and then; what the shop stores of it, with gaps in `seq`. */
function log(of: readonly Step[], job = "job"): Stored[] {
  const docs = [1, 2, 3].map((id) => Object.assign(new Y.Doc(), { clientID: id }));
  const [stored, seen]: [Stored[], number[]] = [[], [0, 0, 0]];
  let at = START;
  for (const [i, step] of of.entries()) {
    const doc = docs[step.device] as Y.Doc;
    at += step.wait * 60_000;
    if (step.does === "hear") {
      for (const c of stored) Y.applyUpdate(doc, c.update);
      seen[step.device] = stored.at(-1)?.seq ?? 0;
      continue;
    }
    const before = Y.encodeStateVector(doc);
    act(doc, step, i);
    const update = Y.encodeStateAsUpdate(doc, before);
    stored.push({
      job,
      device: `d${step.device}`,
      seq: 3 * i + 1,
      at,
      seen: seen[step.device] ?? 0,
      update,
    });
  }
  return stored;
}

/** The state that some changes make, deleted things and all. */
function state(changes: Iterable<{ readonly update: Uint8Array }>): unknown {
  const doc = new Y.Doc({ gc: false });
  for (const { update } of changes) Y.applyUpdate(doc, update);
  return [doc.getMap("bars").toJSON(), doc.getArray("readings").toJSON(), doc.store.pendingStructs];
}

/** What a job is read back from: its base and what is behind it. */
async function parts(store: ShopStore, job: string): Promise<{ readonly update: Uint8Array }[]> {
  const kept = await store.read(job);
  return [...(kept?.base ? [kept.base] : []), ...(kept?.log ?? [])];
}

const hours = (changes: readonly Stored[], shift = 0): number[] => [
  ...new Set(changes.map((c) => (Math.floor((c.at + shift) / HOUR) + 1) * HOUR - shift)),
];

async function withStore<T>(work: (store: ShopStore) => Promise<T>): Promise<T> {
  const folder = await mkdtemp(join(tmpdir(), "tubewright-compaction-"));
  const store = await openSqlite(join(folder, "shop.db"));
  try {
    return await work(store);
  } finally {
    await store.close();
    await rm(folder, { recursive: true });
  }
}

describe("compaction", () => {
  it("leaves the job, and every hour of it in every time zone, as it was (seed 2026)", async () => {
    await withStore(async (store) => {
      let made = 0;
      const property = async (of: Step[], picked: number[], part: number) => {
        const job = `job ${++made}`;
        const all = log(of, job);
        if (all.length === 0) return;
        const cut = 1 + (part % all.length);
        const seqs = [...(await store.append(all.slice(0, cut)))];
        const marks = picked.map((p) => p % all.length);
        const markSeqs = () => marks.map((m) => seqs[m] ?? 0);
        await compact(store, job, markSeqs());
        // again behind the first base
        seqs.push(...(await store.append(all.slice(cut))));
        expect(state(await parts(store, job))).toEqual(state(all));
        await compact(store, job, markSeqs());
        const [first, ...rest] = await parts(store, job);
        expect([state(first ? [first] : []), rest]).toEqual([state(all), []]);
        const by = await store.history(job, 0, 1000);
        for (const shift of [0, 0.5 * HOUR, 5.75 * HOUR, -3.5 * HOUR])
          for (const end of hours(all, shift))
            expect(state(by.filter((c) => c.at < end))).toEqual(state(all.filter((c) => c.at < end)));
        for (const mark of marks)
          expect(state(by.filter((c) => c.seq <= (seqs[mark] ?? 0)))).toEqual(state(all.slice(0, mark + 1)));
        for (const c of by) expect(all.find((a) => seqs[all.indexOf(a)] === c.seq)?.device).toBe(c.device);
        await store.purge(job);
      };
      const marks = fc.array(fc.nat(60), { maxLength: 3 });
      await fc.assert(fc.asyncProperty(steps(120), marks, fc.nat(200), property), {
        seed: 2026,
        numRuns: 200,
      });
    });
  });

  it("joins what one device did in a quarter of an hour, under its last number and its least knowledge", () => {
    const all = log([
      { device: 0, does: "set", key: 1, wait: 1 },
      { device: 1, does: "set", key: 2, wait: 1 },
      { device: 0, does: "hear", key: 0, wait: 1 },
      { device: 0, does: "set", key: 3, wait: 1 },
      { device: 0, does: "set", key: 4, wait: 29 },
    ]);
    expect(
      joined(all, []).map(({ device, seq, seen, at }) => [device, seq, seen, (at - START) / 60_000]),
    ).toEqual([
      ["d1", 4, 0, 2],
      ["d0", 10, 0, 4],
      ["d0", 13, 4, 33],
    ]);
    expect(joined(all, [1]).map((c) => c.seq)).toEqual([1, 4, 10, 13]);
    expect(joined([], [1])).toEqual([]);
  });

  it("makes no base that is longer than the merged changes (seed 7)", async () => {
    await withStore(async (store) => {
      let made = 0;
      const longer = async (of: Step[]): Promise<void> => {
        const job = `job ${++made}`;
        const all = log(of, job);
        await store.append(all);
        await compact(store, job, []);
        const merged = all.length > 0 ? Y.mergeUpdates(all.map((c) => c.update)).length : 0;
        expect((await store.read(job))?.base?.update.length ?? 0).toBeLessThanOrEqual(merged);
      };
      await fc.assert(fc.asyncProperty(steps(80), longer), { seed: 7, numRuns: 100 });
    });
  });

  it("keeps a change that came before what it stands on", async () => {
    await withStore(async (store) => {
      const all = log(Array.from({ length: 6 }, (_, key) => ({ device: 0, does: "set", key, wait: 0 })));
      const [first, ...later] = all as [Stored, ...Stored[]];
      await store.append(later);
      await compact(store, "job", []);
      await store.append([first]);
      expect(state(await parts(store, "job"))).toEqual(state(all));
      expect(state(await store.history("job", 0, 100))).toEqual(state(all));
    });
  });

  it("waits for quiet, but not for ever", () => {
    const last = 1_000_000;
    expect(isDue(ENOUGH - 1, last, last + QUIET)).toBe(false);
    expect(isDue(ENOUGH, last, last + QUIET - 1)).toBe(false);
    expect(isDue(ENOUGH, last, last + QUIET)).toBe(true);
    expect(isDue(MANY, last, last)).toBe(false);
    expect(isDue(MANY + 1, last, last)).toBe(true);
  });

  it("goes through a store in portions, and again behind its base", async () => {
    await withStore(async (store) => {
      const doc = new Y.Doc();
      const made: Stored[] = [];
      const add = async (n: number) => {
        const from = made.length;
        const batch = Array.from({ length: n }, (_, i) => {
          const before = Y.encodeStateVector(doc);
          doc.getMap("bars").set(`${(from + i) % 50}`, from + i);
          const update = Y.encodeStateAsUpdate(doc, before);
          return { job: "job", device: "d", at: START + (from + i) * 1000, seen: 0, update };
        });
        const seqs = await store.append(batch);
        made.push(...batch.map((c, i) => ({ ...c, seq: seqs[i] as number })));
      };
      const check = async () => {
        const kept = await store.read("job");
        expect(kept?.log).toEqual([]);
        expect(state([kept?.base as Base])).toEqual(state(made));
        const all = await store.history("job", 0, 100_000);
        for (const end of hours(made))
          expect(state(all.filter((c) => c.at < end))).toEqual(state(made.filter((c) => c.at < end)));
        return all.length;
      };
      await add(5000);
      expect(await compact(store, "job", [])).toBe(true);
      // 5,000 s are six quarters of an hour, four of them cut by the ends of portions
      expect(await check()).toBe(10);
      await add(300);
      expect(await compact(store, "job", [])).toBe(true);
      await check();
      expect(await compact(store, "job", [])).toBe(false);
      expect(await compact(store, "nobody", [])).toBe(false);
    });
  });
});
