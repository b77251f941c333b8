import { isObject, nameIn } from "../../shared/index.ts";
import type { Json, ShopStore } from "../store/index.ts";
import type { OpenJob } from "./jobs.ts";

/** A job in the shop's list. */
export interface JobRecord {
  readonly name: string;
  /** Milliseconds since 1970. */
  readonly changed: number;
  /** When it was deleted; it is kept for a while. */
  readonly deleted?: number;
  /** Nothing of it is stored yet: it is not listed. */
  readonly empty?: true;
}

export function recordFrom(value: Json | undefined): JobRecord | undefined {
  if (!isObject(value)) return undefined;
  const { name, changed, deleted, empty } = value;
  return {
    name: typeof name === "string" ? name : "",
    changed: typeof changed === "number" ? changed : 0,
    ...(typeof deleted === "number" ? { deleted } : {}),
    ...(empty === true ? { empty } : {}),
  };
}

const asJson = (record: JobRecord): Json => ({ ...record });

/** Puts what a changed job is called, and when it changed, into the list; says whether it was not listed before. */
export async function renew(store: ShopStore, job: OpenJob): Promise<boolean> {
  const was = recordFrom(await store.get("job", job.id));
  const { empty, ...rest } = was ?? { name: "", changed: 0, empty: true as const };
  await store.put("job", job.id, asJson({ ...rest, name: nameIn(job.doc) ?? rest.name, changed: job.at }));
  return empty === true || was?.name !== nameIn(job.doc);
}

/** A place in the list for a job that a device brings along. */
export const begin = (store: ShopStore, id: string, now: number): Promise<void> =>
  store.put("job", id, asJson({ name: "", changed: now, empty: true }));
