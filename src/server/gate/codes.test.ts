import { randomBytes } from "node:crypto";
import { describe, expect, it } from "vitest";
import { MemoryStore } from "../../../tests/shop/memory-store.ts";
import { CODE_LASTS, codes } from "./codes.ts";
import { typeable, typed } from "./secrets.ts";

const channel = { secure: true, loopback: false };

function shop(store = new MemoryStore()) {
  const clock = { now: 1e12 };
  return { store, clock, it: codes({ store, now: () => clock.now, random: (n) => randomBytes(n) }) };
}
const count = (all: readonly { readonly is: string }[], is: string) => all.filter((j) => j.is === is).length;

describe("a code", () => {
  it("brought at once to two processes of a shop lets one device in", async () => {
    const one = shop();
    const other = shop(one.store);
    for (let i = 0; i < 10; i++) {
      const { code } = await one.it.make("all");
      const judged = await Promise.all(
        [one, other, one, other].map((at, n) => at.it.use(code, `10.0.0.${n}`, channel)),
      );
      expect([count(judged, "good"), count(judged, "used")]).toEqual([1, 3]);
    }
  });

  it("a thousand wrong ones brought at once are counted one by one", async () => {
    const { it: codes } = shop();
    const judged = await Promise.all(
      Array.from({ length: 1000 }, (_, i) => codes.look(`WRONG${i}`, "10.0.0.9", channel)),
    );
    expect([count(judged, "unknown"), count(judged, "wait")]).toEqual([3, 997]);
  });

  it("is good up to its last millisecond, is remembered for a day, then forgotten", async () => {
    const { it: codes, clock, store } = shop();
    const { code, until } = await codes.make("marks");
    expect(until).toBe(clock.now + 10 * 60 * 1000);
    clock.now += CODE_LASTS - 1;
    expect(await codes.look(code, "a", channel)).toEqual({ is: "good", rights: "marks" });
    clock.now += 1;
    expect(await codes.use(code, "a", channel)).toEqual({ is: "old" });
    clock.now += 24 * 60 * 60 * 1000;
    await codes.tidy();
    expect(await codes.look(code, "a", channel)).toEqual({ is: "old" });
    clock.now += 1;
    await codes.tidy();
    expect((await store.all("code")).size).toBe(0);
    expect(await codes.look(code, "a", channel)).toEqual({ is: "unknown" });
  });

  it("has all its 128 bits, in letters that are read back as they were typed", () => {
    // Crockford's base 32, by hand: five bits a letter from the right
    expect(typeable(new Uint8Array(16).fill(255))).toBe(`7${"Z".repeat(25)}`);
    expect(typeable(new Uint8Array(16))).toBe("0".repeat(26));
    expect(typeable(new Uint8Array([...new Uint8Array(15), 0x21]))).toBe(`${"0".repeat(24)}11`);
    const seen = new Set(Array.from({ length: 500 }, () => typeable(randomBytes(16))));
    expect(seen.size).toBe(500);
    for (const code of seen) expect([code.length, typed(code)]).toEqual([26, code]);
    expect(typed(" oil-1 ")).toBe("0111");
  });

  it("a store that fails once does not hold up the next one", async () => {
    const { it: codes, store } = shop();
    const { code } = await codes.make("all");
    store.full = true;
    await expect(codes.use(code, "a", channel)).rejects.toThrow();
    store.full = false;
    expect(await codes.use(code, "a", channel)).toEqual({ is: "good", rights: "all" });
  });
});
