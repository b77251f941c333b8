import type { WebSocket } from "ws";
import type { News, Reason } from "../../shared/index.ts";
import { FILED } from "../../words/index.ts";
import { type Kind, type ShopStore, shelf } from "../store/index.ts";
import { compacting } from "./compacting.ts";
import { type Files, FOLDER_DEVICE, filesIn, type Notice } from "./files.ts";
import type { Folder } from "./folder.ts";
import { jobsOf } from "./jobs.ts";
import { CLOSED, type Guest, type Line, lineOf } from "./line.ts";
import { queueTo } from "./queue.ts";
import { begin } from "./records.ts";

export interface HubPorts {
  readonly store: ShopStore;
  readonly folder: Folder;
  readonly now: () => number;
  /** What a device is called; also one that was put out. */
  readonly nameOf: (device: string) => Promise<string>;
  /** A record of the shop was changed by another server. */
  readonly changed?: (kind: Kind, id: string) => void;
}

/** The middle of a shop: open jobs, and the connections of its devices. */
export interface Hub {
  connect(socket: WebSocket, guest: Guest): void;
  /** Ends the connections of a device that was put out. */
  out(device: string): void;
  /** Ends them too, so that it comes back with the rights that it has now. */
  again(device: string): void;
  /** Tells every device that a list is another one. */
  news(of: News): void;
  /** A job was deleted, or is back: its file goes or comes. */
  listed(job: string): Promise<void>;
  notices(): readonly Notice[];
  /** Writes the files that wait; the store stays open. */
  close(): Promise<void>;
}

/** Nothing but letters, figures, hyphens and underlines: the ID of a job goes into addresses. */
const ID = /^[\w-]{1,80}$/;

export async function hubOn({ store, folder, now, nameOf, changed }: HubPorts): Promise<Hub> {
  const records = shelf(store, "job");
  const queue = queueTo(store);
  const lines = new Set<Line>();
  const news = (of: News): void => {
    for (const line of lines) line.send({ is: "news", of });
  };
  const tidy = compacting(store, now);
  const jobs = jobsOf({
    store,
    nameOf,
    queue,
    now,
    changed: (job) => {
      files.changed(job.id);
      tidy.changed(job.id);
    },
  });
  const files: Files = filesIn({ folder, store, jobs, now, news });

  async function admit(job: string, isNew: boolean, { rights }: Guest): Promise<Reason | undefined> {
    if (!ID.test(job)) return "gone";
    const record = await records.get(job);
    if (record) return record.deleted === undefined ? undefined : "gone";
    if (!isNew) return "gone";
    if (rights !== "all") return "not allowed";
    await begin(store, job, now());
    return undefined;
  }

  function end(device: string, code: number): void {
    for (const line of lines) if (line.guest.device === device) line.close(code);
  }

  function endAll(code: number): void {
    for (const line of lines) line.close(code);
  }

  store.watch({
    appended: (job, seqs) =>
      void jobs.take(job, seqs).catch(() => {
        // what cannot be fetched is read anew with the rest
        jobs.drop();
        endAll(CLOSED.restart);
      }),
    changed: (kind, id) => changed?.(kind, id),
    // what others store meanwhile is not heard of: nobody goes on as if all were well
    lost: () => {
      jobs.drop();
      endAll(CLOSED.restart);
    },
    back: () => {
      jobs.drop();
      endAll(CLOSED.restart);
    },
  });
  // a name for the history, of no device that could come in
  await shelf(store, "device").swap(FOLDER_DEVICE, undefined, {
    name: FILED.device,
    rights: "marks",
    made: 0,
    seen: 0,
    key: "",
    out: 1,
  });
  await files.start();

  return {
    connect(socket, guest) {
      const line = lineOf(socket, guest, { jobs, store, nameOf, admit });
      lines.add(line);
      socket.on("close", () => lines.delete(line));
    },
    out: (device) => end(device, CLOSED.out),
    again: (device) => end(device, CLOSED.restart),
    news,
    async listed(job) {
      if ((await records.get(job))?.deleted !== undefined) await jobs.end(job);
      await files.listed(job);
      news("jobs");
    },
    notices: files.notices,
    async close() {
      endAll(CLOSED.restart);
      await queue.empty();
      await files.close();
      await tidy.close();
    },
  };
}
