import { createHash } from "node:crypto";
import { realpathSync } from "node:fs";
import type { MiddlewareHandler } from "hono";

/**
 * The one host name of the server. A browser keeps jobs by host name and port, so a second name for the same place
 * would be a second, empty store.
 */
export const HOST = "127.0.0.1";

/** Sends whoever asks for `localhost` on to the one address, path and query unchanged. */
export const atOneAddress: MiddlewareHandler = async (c, next) => {
  const url = new URL(c.req.url);
  if (!isLocalhost(url.hostname)) return next();
  url.hostname = HOST;
  // for this time only: a browser must not remember it for whatever runs there tomorrow
  return c.redirect(url.href, 307);
};

export const isLocalhost = (host: string): boolean => host === "localhost" || host === "localhost.";

/** Where a server says who it is, for another one that finds its port taken. */
export const WHO = "/.well-known/tubewright";

export interface Who {
  readonly program: "tubewright";
  /** A digest of the folder's path: enough to know it again, and nothing to read in it. */
  readonly folder: string;
}

export const whoServes = (folder: string): Who => ({
  program: "tubewright",
  folder: createHash("sha256").update(realpathSync(folder)).digest("hex"),
});

/** How long whoever holds the port is waited for (ms). */
const PATIENCE = 3000;

/** What holds a port of this machine: this program for the same folder, for another one, or something else. */
export async function holderOf(port: number, folder: string): Promise<"same" | "other folder" | "another"> {
  try {
    const answer = await fetch(`http://${HOST}:${port}${WHO}`, {
      redirect: "error",
      signal: AbortSignal.timeout(PATIENCE),
    });
    const who = (await answer.json()) as Partial<Who> | null;
    if (!answer.ok || who?.program !== "tubewright") return "another";
    return who.folder === whoServes(folder).folder ? "same" : "other folder";
  } catch {
    return "another";
  }
}
