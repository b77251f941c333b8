import type { StoreApi } from "zustand/vanilla";
import { readJob, upgraded } from "../../../core/job/index.ts";
import { isBare, isObject, type JobDocument, type Json, shopAfter, shopOf } from "../document/index.ts";
import type { JobEntry, JobStore } from "../storage/index.ts";
import type { AppState } from "./state-types.ts";

/** Under this key the device keeps the shop's own figures, as a job without bars. */
const KEY = "my shop";

/** Kept in its place once it was deleted: nothing is taken from jobs from then on until another is put in its place. */
const DELETED = false;

/** What the device has: a shop, nothing yet, that it was deleted, or what this version cannot read. */
type Kept = JobDocument | "nothing" | "deleted" | "unreadable";

/**
 * Keeps the shop's own figures of this device: what a job that was opened first has, then whatever is set by hand in
 * any job but a demo. Returns how to put another in its place, or none.
 */
export function keepOwnShop(
  state: StoreApi<AppState>,
  store: Pick<JobStore, "recall" | "remember">,
  isDemo: (entry: JobEntry) => boolean,
): (shop: JobDocument | undefined) => void {
  let before = state.getState().job;
  /** One after the other, each from what is on the device: another window may have changed it. */
  let turn = Promise.resolve();
  const change = (make: (kept: Kept) => Kept): void => {
    turn = turn.then(async () => {
      const kept = keptIn(await store.recall(KEY));
      const next = make(kept);
      if (next !== kept) await store.remember(KEY, typeof next === "string" ? DELETED : next);
      show(typeof next === "string" ? undefined : next);
    });
  };
  const show = (next: JobDocument | undefined): void => {
    if (next === state.getState().ownShop) return;
    if (next) state.setState({ ownShop: next });
    else state.setState(({ ownShop: _gone, ...rest }) => rest, true);
  };
  change((kept) => kept);
  state.subscribe(({ job }) => {
    const was = before;
    if (!job || job.document === was?.document) {
      before = job;
      return;
    }
    before = job;
    if (isDemo(job.entry) || !job.read.ok) return;
    if (was?.entry.id !== job.entry.id || job.did.is === "opened") {
      const shop = shopOf(job.document);
      if (!isBare(shop)) change((kept) => (kept === "nothing" ? shop : kept));
    } else if (job.did.is !== "others") {
      const isUndo = job.did.is === "undo";
      const [from, to] = [was.document, job.document];
      if (isSameShop(from, to)) return;
      change((kept) =>
        kept === "deleted" || kept === "unreadable"
          ? kept
          : shopAfter(kept === "nothing" ? shopOf(from) : kept, from, to, isUndo),
      );
    }
  });
  return (shop) => change(() => shop ?? "deleted");
}

/** An edit leaves every part that it does not touch the same object. */
const isSameShop = (a: JobDocument, b: JobDocument): boolean =>
  (["tubes", "dies", "bender", "notcher", "shop"] as const).every((key) => a[key] === b[key]);

/** What is kept, as this version has it. What a newer one kept is not written over by what a job has. */
function keptIn(value: Json | undefined): Kept {
  if (value === DELETED || value === null) return "deleted";
  if (value === undefined) return "nothing";
  const shop = isObject(value) ? (upgraded(value) as Json) : undefined;
  return isObject(shop) && readJob(shop).ok ? shop : "unreadable";
}
