import { shelf } from "../store/index.ts";
import type { Parts } from "./parts.ts";

/** How long a deleted job can be restored (ms). */
export const DELETED_LASTS = 30 * 24 * 60 * 60 * 1000;

/** What falls due with time: the certificate, codes that ended, jobs deleted 30 days ago. */
export async function upkeep({ authority, codes, news, now, store }: Parts): Promise<void> {
  await authority.renew();
  await codes.tidy();
  const jobs = shelf(store, "job");
  for (const [id, job] of await jobs.all()) {
    if (job.deleted === undefined || now() - job.deleted < DELETED_LASTS) continue;
    // the entry first: whoever restores the job at this moment keeps all of it
    if (!(await jobs.swap(id, job, undefined))) continue;
    await store.purge(id);
    for (const [state, { job: of }] of await shelf(store, "state").all())
      if (of === id) await store.remove("state", state);
    news("jobs", id);
  }
}
