import * as Y from "yjs";
import { type JobDocument, toJson } from "../../shared/index.ts";
import type { ShopChange } from "../model/shop/index.ts";
import { type Difference, differences } from "./parts.ts";

/** What one device changed within one hour. */
export interface Hour {
  /** Of its last change: the state that can be looked at. */
  readonly seq: number;
  readonly at: number;
  readonly by: string;
  readonly changes: number;
  /** The job came into the shop. */
  readonly isFirst: boolean;
  readonly differs: readonly Difference[];
}

const HOUR = 3_600_000;

/** A job's changes by hour and device, the newest first, with what each lot changed. */
export function hoursOf(changes: readonly ShopChange[]): readonly Hour[] {
  const doc = new Y.Doc();
  const hours: Hour[] = [];
  let before: JobDocument = {};
  for (let from = 0; from < changes.length; ) {
    const first = changes[from] as ShopChange;
    let to = from;
    while (to < changes.length && isOfOneLot(first, changes[to] as ShopChange)) to++;
    const lot = changes.slice(from, to);
    doc.transact(() => {
      for (const { update } of lot) Y.applyUpdate(doc, update);
    });
    const after = toJson(doc);
    const last = lot.at(-1) as ShopChange;
    hours.push({
      seq: last.seq,
      at: last.at,
      by: last.by,
      changes: lot.length,
      isFirst: hours.length === 0,
      // all of it is no list that anyone reads
      differs: hours.length === 0 ? [] : differences(before, after),
    });
    before = after;
    from = to;
  }
  return hours.reverse();
}

const isOfOneLot = (a: ShopChange, b: ShopChange): boolean =>
  a.by === b.by && Math.floor(a.at / HOUR) === Math.floor(b.at / HOUR);

/** The job as it was after a change. */
export function stateAt(changes: readonly ShopChange[], seq: number): JobDocument {
  const doc = new Y.Doc();
  for (const change of changes) if (change.seq <= seq) Y.applyUpdate(doc, change.update);
  return toJson(doc);
}
