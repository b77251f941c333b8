import { isList, isObject, type Json } from "../../shared/index.ts";
import type { Edited, GaveWay, Share, Whereabouts } from "../model/shop/index.ts";
import type { JobStore } from "../model/storage/index.ts";

type Small = Pick<JobStore, "recall" | "remember">;

/** What a device holds of a job and its shop from one page to the next. */
interface Held {
  /** The last change of the shop that it has had. */
  readonly seen: number;
  /** Whether the shop has all of it. */
  readonly isKept: boolean;
  /** What the shop does not have, part by part. */
  readonly edits: readonly Edited[];
  /** What gave way and nobody has looked at yet. */
  readonly gave: readonly GaveWay[];
}

const keys = (job: string) => ({ seen: `shop ${job}`, unsent: `unsent ${job}`, gave: `gave ${job}` });

export async function heldOf(store: Small, job: string): Promise<Held> {
  const at = keys(job);
  const [seen, unsent, gave] = await Promise.all([at.seen, at.unsent, at.gave].map((k) => store.recall(k)));
  return {
    seen: numberIn(seen),
    isKept: unsent === false,
    edits: partsIn(unsent).map(({ path, value, seen: then }) => ({ path, value, seen: numberIn(then) })),
    gave: partsIn(gave).map(({ path, by, mine, theirs }) => ({
      path,
      by: typeof by === "string" ? by : "",
      mine,
      theirs,
    })),
  };
}

export const whereIs = ({ isKept, seen }: Held): Whereabouts =>
  isKept ? "kept" : seen > 0 ? "unsent" : "here";

/** Writes it down. */
export function holdFor(store: Small, job: string) {
  const at = keys(job);
  return {
    seen: (seq: number): void => void store.remember(at.seen, seq),
    unsent: (one: Pick<Share, "state" | "unsent">): Promise<void> =>
      store.remember(at.unsent, one.state().is === "kept" ? false : one.unsent().map(plain)),
    gave: (what: readonly GaveWay[]): Promise<void> => store.remember(at.gave, what.map(plain)),
  };
}

/** Without what is undefined. */
const plain = (value: object): Json => JSON.parse(JSON.stringify(value)) as Json;

const numberIn = (value: Json | undefined): number => (typeof value === "number" ? value : 0);

interface Part {
  readonly path: readonly string[];
  readonly [key: string]: Json | undefined;
}

const partsIn = (value: Json | undefined): readonly Part[] =>
  (isList(value) ? value : []).flatMap((one) => {
    if (!isObject(one) || !isList(one.path)) return [];
    return [{ ...one, path: one.path.filter((key) => typeof key === "string") }];
  });
