import { nameIn } from "../../shared/index.ts";
import { revise, type ShopStore, shelf } from "../store/index.ts";
import type { OpenJob } from "./jobs.ts";

/**
 * Puts what a changed job is called, when it changed and where its file is into the list; says whether the list reads
 * otherwise. What others put there meanwhile, that it was deleted, stays.
 */
export async function renew(
  store: ShopStore,
  job: Pick<OpenJob, "id" | "doc" | "at">,
  file?: string,
): Promise<boolean> {
  const was = await revise(shelf(store, "job"), job.id, ({ empty: _empty, ...record }) => ({
    ...record,
    name: nameIn(job.doc) ?? record.name,
    changed: job.at,
    ...(file === undefined ? {} : { file }),
  }));
  if (!was) return false;
  const { empty, name } = was;
  return empty === true || (nameIn(job.doc) ?? name) !== name || (file !== undefined && file !== was.file);
}

/** A place in the list for a job that a device brings along. */
export const begin = async (store: ShopStore, id: string, now: number): Promise<void> =>
  void (await shelf(store, "job").swap(id, undefined, { name: "", changed: now, empty: true }));
