/** What a try with a code has to wait for. */
export type Gap = { readonly is: "go" } | { readonly is: "wait"; readonly seconds: number };

interface Count {
  wrong: number;
  last: number;
}

const SECOND = 1000;
/** So many wrong codes from one address are forgiven at once: whoever mistypes is let go on. */
const FREE = 2;
/** From so many on nothing is taken from that address for a while. */
const STOP = 10;
/** Wrong codes from all other addresses together after which each waits, and after which all do. */
const ALL_SLOW = 20;
const ALL_STOP = 60;
/** After so long without a wrong code an address starts afresh (ms). */
const FORGET = 15 * 60 * SECOND;
/** Addresses kept in mind. */
const MOST = 1000;

export interface Tries {
  /** Asked before a code is looked at. A try that has to wait is not looked at, and does not count. */
  may(from: string): Gap;
  wrong(from: string): void;
}

/**
 * Wrong codes slow an address down (1, 2, 4 … s after the third), then stop it for a quarter of an hour; so do those of all addresses
 * together, for who tries from many. The machine itself (`exempt`) never waits for what others do.
 */
export function tries(now: () => number, exempt: (from: string) => boolean): Tries {
  const counts = new Map<string, Count>();
  const all: Count = { wrong: 0, last: 0 };
  const fresh = (count: Count | undefined): Count =>
    count && now() - count.last < FORGET ? count : { wrong: 0, last: 0 };
  const until = ({ wrong, last }: Count, slow: number, stop: number, most: number): number => {
    if (wrong <= slow) return 0;
    if (wrong >= stop) return last + FORGET;
    return last + Math.min(2 ** (wrong - slow - 1), most) * SECOND;
  };
  const count = (held: Count): Count => ({ wrong: fresh(held).wrong + 1, last: now() });
  return {
    may(from) {
      const own = until(fresh(counts.get(from)), FREE, STOP, 60);
      const shared = exempt(from) ? 0 : until(fresh(all), ALL_SLOW, ALL_STOP, 4);
      const wait = Math.max(own, shared) - now();
      return wait > 0 ? { is: "wait", seconds: Math.ceil(wait / SECOND) } : { is: "go" };
    },
    wrong(from) {
      const next = count(counts.get(from) ?? { wrong: 0, last: 0 });
      // the one that was quiet for longest goes first
      counts.delete(from);
      counts.set(from, next);
      const [oldest] = counts.keys();
      if (counts.size > MOST && oldest !== undefined) counts.delete(oldest);
      if (!exempt(from)) Object.assign(all, count(all));
    },
  };
}
