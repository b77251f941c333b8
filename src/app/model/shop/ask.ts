import type { Json, Rights } from "../../../shared/index.ts";
import { bytesOf } from "../../../shared/index.ts";

/** A job in the shop's list. */
export interface ShopJob {
  readonly id: string;
  readonly name: string;
  readonly file?: string;
  /** Milliseconds since 1970. */
  readonly changed: number;
  /** When it was deleted; the shop keeps it for a while. */
  readonly deleted?: number;
}

export interface ShopDevice {
  readonly id: string;
  readonly name: string;
  readonly rights: Rights;
  readonly made: number;
  readonly seen: number;
}

/** What the shop says of itself and of this device. */
export interface ShopSelf {
  readonly shop: string;
  readonly me: { readonly id: string; readonly name: string; readonly rights: Rights };
  /** Whether this page came over https, or on the shop PC itself. */
  readonly secure: boolean;
  /** SHA-256 of the shop's authority, as people compare it. */
  readonly fingerprint: string;
  readonly addresses: { readonly http: readonly string[]; readonly https: readonly string[] };
}

/** A way for a new device to join: an address with a one-time code, and its QR code as SVG. */
export interface JoinWay {
  readonly url: string;
  readonly secure: boolean;
  readonly qr: string;
}
export interface JoinCode {
  readonly code: string;
  readonly until: number;
  readonly ways: readonly JoinWay[];
}

/** A stored change, as the shop's history lists it. */
export interface ShopChange {
  readonly seq: number;
  /** What the device is called that made it. */
  readonly by: string;
  readonly at: number;
  readonly update: Uint8Array;
}

/** A moment of a job with a name. */
export interface NamedState {
  readonly id: string;
  readonly name: string;
  readonly seq: number;
  readonly at: number;
  readonly by: string;
}

/** A photograph of a job; its picture is at `pictureOf`. */
export interface Photograph {
  /** SHA-256 in hexadecimal. */
  readonly digest: string;
  readonly bar?: string;
  readonly at: number;
  readonly by: string;
}
/** Where the shop has a photograph's picture. */
export const pictureOf = ({ digest }: Photograph): string => `/shop/photographs/${digest}`;

export interface ShopNotice {
  readonly at: number;
  readonly text: string;
}

/** The shop answered that it does not: the status, and its one line. */
export class ShopRefused extends Error {
  override readonly name = "ShopRefused";
  readonly status: number;
  constructor(status: number, line: string) {
    super(line);
    this.status = status;
  }
}

/** How long an answer is waited for (ms). */
const PATIENCE = 10_000;

async function asked(method: string, path: string, body?: Json): Promise<unknown> {
  const answer = await fetch(path, {
    method,
    ...(body === undefined
      ? {}
      : { body: JSON.stringify(body), headers: { "Content-Type": "application/json" } }),
    signal: AbortSignal.timeout(PATIENCE),
  });
  if (!answer.ok) throw new ShopRefused(answer.status, (await answer.text()).trim());
  return answer.status === 204 ? undefined : answer.json();
}
const ask = async <T>(path: string): Promise<T> => (await asked("GET", path)) as T;
const of = (id: string): string => encodeURIComponent(id);

/** What a device asks of its shop beside the jobs themselves. Each rejects with `ShopRefused`, or as `fetch` does. */
export const shopAsk = {
  self: () => ask<ShopSelf>("/shop"),
  devices: () => ask<readonly ShopDevice[]>("/shop/devices"),
  changeDevice: (id: string, to: { readonly name?: string; readonly rights?: Rights }) =>
    asked("PATCH", `/shop/devices/${of(id)}`, to),
  putOut: (id: string) => asked("DELETE", `/shop/devices/${of(id)}`, {}),
  newCode: async (rights: Rights) => (await asked("POST", "/shop/codes", { rights })) as JoinCode,
  jobs: () => ask<readonly ShopJob[]>("/shop/jobs"),
  deleteJob: (id: string) => asked("DELETE", `/shop/jobs/${of(id)}`, {}),
  restoreJob: (id: string) => asked("POST", `/shop/jobs/${of(id)}/restore`, {}),
  notices: () => ask<readonly ShopNotice[]>("/shop/notices"),
  states: (job: string) => ask<readonly NamedState[]>(`/shop/jobs/${of(job)}/states`),
  nameState: (job: string, name: string, seq: number) =>
    asked("POST", `/shop/jobs/${of(job)}/states`, { name, seq }),
  removeState: (job: string, id: string) => asked("DELETE", `/shop/jobs/${of(job)}/states/${of(id)}`, {}),
  photographs: (job: string) => ask<readonly Photograph[]>(`/shop/jobs/${of(job)}/photographs`),
  addPhotograph,
  removePhotograph: (job: string, digest: string) =>
    asked("DELETE", `/shop/jobs/${of(job)}/photographs/${of(digest)}`, {}),
  history: wholeHistory,
};

async function addPhotograph(job: string, bar: string | undefined, picture: Blob): Promise<void> {
  const bytes = await picture.arrayBuffer();
  const digest = [...new Uint8Array(await crypto.subtle.digest("SHA-256", bytes))]
    .map((b) => b.toString(16).padStart(2, "0"))
    .join("");
  const of = new URLSearchParams({ job, ...(bar === undefined ? {} : { bar }) });
  const answer = await fetch(`/shop/photographs/${digest}?${of}`, {
    method: "PUT",
    body: bytes,
    headers: { "Content-Type": "application/octet-stream" },
    signal: AbortSignal.timeout(UPLOAD),
  });
  if (!answer.ok) throw new ShopRefused(answer.status, (await answer.text()).trim());
}
/** How long a picture may take to the shop (ms). */
const UPLOAD = 60_000;

const PIECE = 1000;

/** All changes of a job, in order. */
async function wholeHistory(job: string): Promise<readonly ShopChange[]> {
  const changes: ShopChange[] = [];
  for (;;) {
    const after = changes.at(-1)?.seq ?? 0;
    const piece = await ask<{
      readonly changes: readonly (Omit<ShopChange, "update"> & { readonly update: string })[];
      readonly more: boolean;
    }>(`/shop/jobs/${of(job)}/history?after=${after}&limit=${PIECE}`);
    for (const { update, ...rest } of piece.changes) changes.push({ ...rest, update: bytesOf(update) });
    if (!piece.more || piece.changes.length === 0) return changes;
  }
}
