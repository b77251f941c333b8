import { createHash, randomBytes } from "node:crypto";
import { afterEach, beforeEach, describe, expect, it } from "vitest";
import { seeded } from "../../src/core/numeric/index.ts";
import {
  type Change,
  type Json,
  NotStored,
  type ShopStore,
  type Stored,
} from "../../src/server/store/index.ts";

/** A place where a store can be opened, again and again; each `make` has an empty one. */
export interface Place {
  /** Opens what is there; the one before was closed. */
  readonly open: () => Promise<ShopStore>;
  readonly clear: () => Promise<void>;
}

const HOUR = 3_600_000;
const START = Date.UTC(2026, 2, 2, 8);
const bytes = (...values: number[]): Uint8Array => new Uint8Array(values);
const digestOf = (data: Uint8Array): string => createHash("sha256").update(data).digest("hex");
export const change = (job: string, update: Uint8Array, more: Partial<Change> = {}): Change => ({
  job,
  device: "tablet",
  at: START,
  seen: 0,
  update,
  ...more,
});
const refused = async (call: Promise<unknown>): Promise<string> => {
  const error = await call.then(
    () => undefined,
    (e: unknown) => e,
  );
  return error instanceof NotStored ? error.why : `no NotStored: ${String(error)}`;
};

/** What every store of a shop does, whatever it keeps things in. */
export function storeSuite(name: string, make: () => Promise<Place>): void {
  describe(name, () => {
    let place: Place;
    let store: ShopStore;
    beforeEach(async () => {
      place = await make();
      store = await place.open();
    });
    afterEach(async () => {
      await store.close();
      await place.clear();
    });
    const again = async () => {
      await store.close();
      store = await place.open();
    };
    const rig = { get: () => store, again };
    changes(rig);
    compaction(rig);
    records(rig);
    blobs(rig);
    longRun(rig);
  });
}

interface Rig {
  readonly get: () => ShopStore;
  readonly again: () => Promise<void>;
}

function changes({ get, again }: Rig): void {
  it("gives changes back as they were, in order, also when it was closed between", async () => {
    const given = [bytes(1, 2), bytes(), randomBytes(20_000), bytes(0, 0, 255)].map((update, i) =>
      change("job", new Uint8Array(update), { device: `d${i}`, at: START + i, seen: i }),
    );
    const first = await get().append(given.slice(0, 3));
    const second = await get().append(given.slice(3));
    const want = given.map((c, i) => ({ ...c, seq: [...first, ...second][i] }));
    expect(want.map((c) => c.seq)).toEqual(want.map((c) => c.seq).sort((a, b) => a! - b!));
    expect(new Set(want.map((c) => c.seq)).size).toBe(4);
    expect(await get().read("job")).toEqual({ log: want });
    await again();
    expect(await get().read("job")).toEqual({ log: want });
    const [next] = await get().append([change("job", bytes(9))]);
    expect(next).toBeGreaterThan(second[0]!);
  });

  it("takes the part of a buffer that an update is, and gives one that is its own", async () => {
    const buffer = Buffer.from([9, 1, 2, 9]);
    await get().append([change("job", buffer.subarray(1, 3))]);
    buffer.fill(7);
    const kept = await get().read("job");
    expect(kept?.log[0]?.update).toEqual(bytes(1, 2));
    expect(kept?.log[0]?.update.constructor).toBe(Uint8Array);
  });

  it("knows no job that nothing was appended to", async () => {
    expect(await get().read("job")).toBeUndefined();
    expect(await get().history("job", 0, 10)).toEqual([]);
    expect(await get().fetch("job", [1, 2])).toEqual([]);
    expect(await get().counts("job")).toEqual({ log: 0, all: 0 });
    expect(await get().append([])).toEqual([]);
  });

  it("keeps jobs apart, whatever they are called", async () => {
    const names = [
      "a",
      "A",
      "a ",
      "constructor",
      "__proto__",
      "%",
      "x'; DROP TABLE log; --",
      "Käfig 🛠",
      "\u00e9",
      "e\u0301",
    ];
    const seqs = await get().append(names.map((job, i) => change(job, bytes(i))));
    await again();
    for (const [i, job] of names.entries())
      expect(await get().read(job)).toEqual({ log: [{ ...change(job, bytes(i)), seq: seqs[i] }] });
  });

  it("adds all changes or none, and says no to IDs that would become others", async () => {
    for (const id of ["", "a\0b", "\ud800", "x".repeat(501)]) {
      expect(await refused(get().append([change("job", bytes(1)), change(id, bytes(2))]))).toBe("other");
      expect(await refused(get().append([change("job", bytes(1), { device: id })]))).toBe("other");
      expect(await refused(get().put("job", id, 1))).toBe("other");
      expect(await refused(get().get("job", id))).toBe("other");
      expect(await refused(get().read(id))).toBe("other");
    }
    expect(await get().read("job")).toBeUndefined();
    expect(await get().append([change("job", bytes(1))])).toHaveLength(1);
  });

  it("fetches by number what is there, of this job alone, in order", async () => {
    const seqs = await get().append(["a", "b", "a", "a"].map((job, i) => change(job, bytes(i))));
    const got = await get().fetch("a", [seqs[3]!, seqs[0]!, seqs[0]!, 999_999]);
    expect(got.map((c) => c.update)).toEqual([bytes(0), bytes(3)]);
    expect(await get().fetch("b", [seqs[1]!])).toHaveLength(1);
    expect(await get().fetch("nobody", seqs)).toEqual([]);
  });

  it("leafs through a job's changes", async () => {
    await get().append(Array.from({ length: 25 }, (_, i) => change(i % 5 === 0 ? "b" : "a", bytes(i))));
    const seen: number[] = [];
    for (let after = 0; ; ) {
      const page = await get().history("a", after, 7);
      expect(page.length).toBeLessThanOrEqual(7);
      if (page.length === 0) break;
      seen.push(...page.map((c) => c.update[0]!));
      after = page.at(-1)!.seq;
    }
    expect(seen).toEqual(Array.from({ length: 25 }, (_, i) => i).filter((i) => i % 5 !== 0));
    expect(await get().history("a", 0, 0)).toEqual([]);
  });

  it("does what was asked for in its order, without waiting between", async () => {
    const appended = [1, 2, 3].map((i) => get().append([change("job", bytes(i))]));
    const middle = get().read("job");
    const purged = get().purge("job");
    const last = get().append([change("job", bytes(4))]);
    const end = get().read("job");
    expect((await middle)?.log.map((c) => c.update[0])).toEqual([1, 2, 3]);
    expect((await end)?.log.map((c) => c.update[0])).toEqual([4]);
    await Promise.all([...appended, purged, last]);
  });

  it("purges a job for good, and gives its numbers to nothing else", async () => {
    const before = await get().append([change("a", bytes(1)), change("b", bytes(2)), change("a", bytes(3))]);
    await get().purge("a");
    await again();
    expect(await get().read("a")).toBeUndefined();
    expect(await get().history("a", 0, 9)).toEqual([]);
    expect((await get().read("b"))?.log).toHaveLength(1);
    const [seq] = await get().append([change("a", bytes(4))]);
    expect(seq).toBeGreaterThan(before[2]!);
    await get().purge("nobody");
  });

  it("refuses when it is closed, and closes twice", async () => {
    await get().close();
    await get().close();
    expect(await refused(get().append([change("job", bytes(1))]))).not.toContain("no NotStored");
    expect(await refused(get().read("job"))).not.toContain("no NotStored");
    await again();
    expect(await get().read("job")).toBeUndefined();
  });
}

function compaction({ get, again }: Rig): void {
  const four = async () => {
    const seqs = await get().append(
      [1, 2, 3, 4].map((i) => change("job", bytes(i), { at: START + i * HOUR })),
    );
    await get().append([change("other", bytes(9))]);
    return seqs as [number, number, number, number];
  };
  const merged = (seq: number, ...of: number[]): Stored => ({ ...change("job", bytes(...of)), seq });

  it("puts a base in and one change in place of several; later ones stay", async () => {
    const [, , third, fourth] = await four();
    const base = { seq: third, at: START + 3 * HOUR, update: bytes(1, 2, 3) };
    expect(await get().compact("job", 0, base, [merged(third, 12, 3)])).toBe(true);
    await again();
    const kept = await get().read("job");
    expect(kept?.base).toEqual(base);
    expect(kept?.log.map((c) => [c.seq, c.update[0]])).toEqual([[fourth, 4]]);
    expect((await get().history("job", 0, 9)).map((c) => [...c.update])).toEqual([[12, 3], [4]]);
    expect(await get().counts("job")).toEqual({ log: 1, all: 2 });
    expect(await get().counts("other")).toEqual({ log: 1, all: 1 });
  });

  it("goes on from the base before, whose changes stay as they are", async () => {
    const [, second, , fourth] = await four();
    await get().compact("job", 0, { seq: second, at: 2, update: bytes(12) }, [merged(second, 12)]);
    const base = { seq: fourth, at: 4, update: bytes(14) };
    expect(await get().compact("job", second, base, [merged(fourth, 34)])).toBe(true);
    expect(await get().read("job")).toEqual({ base, log: [] });
    expect((await get().history("job", 0, 9)).map((c) => c.update[0])).toEqual([12, 34]);
    await get().append([change("job", bytes(5))]);
    expect((await get().read("job"))?.log.map((c) => c.update[0])).toEqual([5]);
  });

  it("does nothing where another one was done meanwhile, or the job is purged", async () => {
    const [, second, third, fourth] = await four();
    await get().compact("job", 0, { seq: third, at: 3, update: bytes(13) }, [merged(third, 13)]);
    const kept = await get().read("job");
    for (const [was, seq] of [
      [0, second],
      [0, fourth],
      [second, fourth],
    ] as const)
      expect(await get().compact("job", was, { seq, at: 4, update: bytes(99) }, [merged(seq, 99)])).toBe(
        false,
      );
    expect(await get().read("job")).toEqual(kept);
    await get().purge("job");
    expect(
      await get().compact("job", 0, { seq: fourth, at: 4, update: bytes(99) }, [merged(fourth, 99)]),
    ).toBe(false);
    expect(await get().read("job")).toBeUndefined();
  });

  it("refuses what cannot stand for the changes, whole", async () => {
    const [first, second, third] = await four();
    const base = { seq: second, at: 2, update: bytes(12) };
    for (const by of [[], [merged(third, 3)], [merged(first, 1)], [{ ...merged(second, 2), job: "other" }]])
      expect(await refused(get().compact("job", 0, base, by))).toBe("other");
    expect(await refused(get().compact("job", 0, base, [merged(second, 1), merged(second, 2)]))).toBe(
      "other",
    );
    expect(await get().counts("job")).toEqual({ log: 4, all: 4 });
  });
}

const ODD: readonly Json[] = [
  null,
  0,
  "",
  "a\0b\ud800",
  [1, [2]],
  { "2": 1, "1": 2, constructor: "x" },
  { deep: { list: [{ "": null }] } },
];

function records({ get, again }: Rig): void {
  it("keeps small records of each kind by ID", async () => {
    for (const [i, value] of ODD.entries()) await get().put("device", `d${i}`, value);
    await get().put("job", "d0", "another kind");
    await get().put("device", "d1", { rights: "marks" });
    await again();
    const want = ODD.map((value, i) => [`d${i}`, i === 1 ? { rights: "marks" } : value] as const);
    for (const [id, value] of want) expect(await get().get("device", id)).toEqual(value);
    expect([...(await get().all("device"))].sort()).toEqual([...want].sort());
    expect(await get().get("device", "nobody")).toBeUndefined();
    expect((await get().all("code")).size).toBe(0);
    await get().remove("device", "d0");
    await get().remove("device", "d0");
    expect(await get().get("device", "d0")).toBeUndefined();
    expect(await get().get("job", "d0")).toBe("another kind");
  });

  it("swaps only what is there as it was said", async () => {
    const s = get();
    expect(await s.swap("code", "c", 1, 2)).toBe(false);
    expect(await s.swap("code", "c", undefined, undefined)).toBe(true);
    expect(await s.swap("code", "c", undefined, { tries: 0 })).toBe(true);
    expect(await s.swap("code", "c", undefined, { tries: 9 })).toBe(false);
    expect(await s.swap("code", "c", { tries: 1 }, { tries: 9 })).toBe(false);
    expect(await s.get("code", "c")).toEqual({ tries: 0 });
    expect(await s.swap("code", "c", { tries: 0 }, null)).toBe(true);
    expect(await s.swap("code", "c", undefined, 3)).toBe(false);
    expect(await s.swap("code", "c", null, undefined)).toBe(true);
    expect(await s.get("code", "c")).toBeUndefined();
  });

  it("lets one of twenty use a code", async () => {
    await get().put("code", "c", "fresh");
    const used = Array.from({ length: 20 }, () => get().swap("code", "c", "fresh", undefined));
    expect((await Promise.all(used)).filter(Boolean)).toHaveLength(1);
  });
}

function blobs({ get, again }: Rig): void {
  it("keeps a photograph once, by its digest", async () => {
    const photograph = new Uint8Array(randomBytes(3_000_000));
    const digest = digestOf(photograph);
    const put = get().putBlob(digest, photograph);
    expect(digestOf((await get().blob(digest)) ?? bytes())).toBe(digest);
    await put;
    await get().putBlob(digest, photograph);
    await get().putBlob(digestOf(bytes()), bytes());
    await again();
    expect(digestOf((await get().blob(digest)) ?? bytes())).toBe(digest);
    expect(await get().blob(digestOf(bytes()))).toEqual(bytes());
    expect(await get().blob(digestOf(bytes(1)))).toBeUndefined();
  });

  it("takes no digest that is none, or another's", async () => {
    for (const digest of ["", "../../secret", "A".repeat(64), digestOf(bytes(2))])
      expect(await refused(get().putBlob(digest, bytes(1)))).toBe("other");
    expect(await refused(get().blob("../shop.db"))).toBe("other");
    expect(await get().blob(digestOf(bytes(2)))).toBeUndefined();
  });
}

/** A plain list in memory, which the store must equal after any run of calls. */
function longRun({ get, again }: Rig): void {
  it("is after 300 random calls what a plain list is (seed 4711)", async () => {
    const random = seeded(4711);
    const below = (n: number) => Math.floor(random() * n);
    const jobs = ["a", "b", "c"];
    const all = new Map<string, Stored[]>();
    const bases = new Map<string, number>();
    const rowsOf = (job: string) => all.get(job) ?? [];
    const append = async () => {
      const batch = Array.from({ length: 1 + below(4) }, () =>
        change(jobs[below(3)]!, bytes(below(256), below(256))),
      );
      const seqs = await get().append(batch);
      for (const [i, c] of batch.entries()) all.set(c.job, [...rowsOf(c.job), { ...c, seq: seqs[i]! }]);
    };
    const shrink = async (job: string) => {
      const was = bases.get(job) ?? 0;
      const open = rowsOf(job).filter((c) => c.seq > was);
      const last = open[below(open.length)];
      if (!last) return;
      const rest = rowsOf(job).filter((c) => c.seq <= was || c.seq >= last.seq);
      expect(await get().compact(job, was, { seq: last.seq, at: 1, update: bytes(7) }, [last])).toBe(true);
      all.set(job, rest);
      bases.set(job, last.seq);
    };
    for (let i = 0; i < 300; i++) {
      const [what, job] = [random(), jobs[below(3)]!];
      if (what < 0.7) await append();
      else if (what < 0.85) await shrink(job);
      else if (what < 0.88) {
        await get().purge(job);
        all.delete(job);
        bases.delete(job);
      } else if (what < 0.92) await again();
      expect(await get().history(job, 0, 1000)).toEqual(rowsOf(job));
      const kept = await get().read(job);
      const behind = rowsOf(job).filter((c) => c.seq > (bases.get(job) ?? 0));
      expect([kept?.base?.seq, kept?.log ?? []]).toEqual([bases.get(job), behind]);
    }
  });
}
