import * as Y from "yjs";
import { base64, bytesOf } from "../../shared/index.ts";
import type { JobStore } from "../model/storage/index.ts";
import { heldOf } from "./held.ts";

/** A job carried from the page of one address to that of another. */
export interface Carried {
  readonly id: string;
  readonly name: string;
  readonly update: Uint8Array;
}

/** What stands before what is carried, in the address of the page that it goes to. */
export const CARRY = "#carry=";

/**
 * Jobs as part of an address. What follows the `#` never leaves the device: it goes from one page to the next, and no
 * server sees it. Each is whole: what the shop has already says nothing new there.
 */
export async function packed(jobs: readonly Carried[]): Promise<string> {
  const plain = jobs.map(({ update, ...rest }) => ({ ...rest, update: base64(update) }));
  const bytes = new TextEncoder().encode(JSON.stringify(plain));
  const pressed = new Blob([bytes]).stream().pipeThrough(new CompressionStream("gzip"));
  const text = base64(new Uint8Array(await new Response(pressed).arrayBuffer()));
  return text.replaceAll("+", "-").replaceAll("/", "_").replaceAll("=", "");
}

/** What was packed; undefined for anything else. */
export async function unpacked(text: string): Promise<readonly Carried[] | undefined> {
  try {
    const pressed = bytesOf(text.replaceAll("-", "+").replaceAll("_", "/"));
    const plain = new Blob([pressed]).stream().pipeThrough(new DecompressionStream("gzip"));
    const jobs = (await new Response(plain).json()) as readonly (Omit<Carried, "update"> & {
      readonly update: string;
    })[];
    return jobs.map(({ id, name, update }) => {
      const carried = { id: String(id), name: String(name), update: bytesOf(update) };
      Y.decodeUpdate(carried.update);
      return carried;
    });
  } catch {
    return undefined;
  }
}

/** Jobs of this device that the shop may not have all of. */
export async function unsentOf(store: JobStore): Promise<readonly Carried[]> {
  const jobs: Carried[] = [];
  for (const { id, name } of await store.list()) {
    if ((await heldOf(store, id)).isKept) continue;
    const opened = await store.open(id).catch(() => undefined);
    if (opened?.is !== "open") continue;
    jobs.push({ id, name, update: Y.encodeStateAsUpdate(opened.job.doc) });
    await opened.job.close();
  }
  return jobs;
}

/** "https://192.168.1.7:8735" of what a person types; undefined where that is no address. */
export function originOf(typed: string): string | undefined {
  const text = typed.trim();
  const url = URL.parse(/^https?:\/\//i.test(text) ? text : `https://${text}`);
  if (url?.protocol !== "https:") return undefined;
  return url.port === "" && !/:443\b/.test(text) ? `https://${url.hostname}:${SECURE_PORT}` : url.origin;
}
/** Where a shop has its secure address without being told otherwise. */
const SECURE_PORT = 8735;
