import { isObject, nameIn } from "../../shared/index.ts";
import type { Json, ShopStore } from "../store/index.ts";
import type { OpenJob } from "./jobs.ts";

/** A job in the shop's list. */
export interface JobRecord {
  readonly name: string;
  /** Milliseconds since 1970. */
  readonly changed: number;
  /** Its file in the folder. */
  readonly file?: string;
  /** When it was deleted; it is kept for a while. */
  readonly deleted?: number;
  /** Nothing of it is stored yet: it is not listed. */
  readonly empty?: true;
}

export function recordFrom(value: Json | undefined): JobRecord | undefined {
  if (!isObject(value)) return undefined;
  const { name, changed, file, deleted, empty } = value;
  return {
    name: typeof name === "string" ? name : "",
    changed: typeof changed === "number" ? changed : 0,
    ...(typeof file === "string" ? { file } : {}),
    ...(typeof deleted === "number" ? { deleted } : {}),
    ...(empty === true ? { empty } : {}),
  };
}

const asJson = (record: JobRecord): Json => ({ ...record });

/**
 * Puts what a changed job is called, when it changed and where its file is into the list; says whether the list reads
 * otherwise. What others put there meanwhile, that it was deleted, stays.
 */
export async function renew(
  store: ShopStore,
  job: Pick<OpenJob, "id" | "doc" | "at">,
  file?: string,
): Promise<boolean> {
  for (;;) {
    const held = await store.get("job", job.id);
    const { empty, ...was } = recordFrom(held) ?? { name: "", changed: 0, empty: true as const };
    const name = nameIn(job.doc) ?? was.name;
    const is = { ...was, name, changed: job.at, ...(file === undefined ? {} : { file }) };
    if (await store.swap("job", job.id, held, asJson(is)))
      return empty === true || name !== was.name || (file !== undefined && file !== was.file);
  }
}

/** A place in the list for a job that a device brings along. */
export const begin = async (store: ShopStore, id: string, now: number): Promise<void> =>
  void (await store.swap("job", id, undefined, asJson({ name: "", changed: now, empty: true })));
