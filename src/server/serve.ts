import type { Server } from "node:http";
import { createAdaptorServer } from "@hono/node-server";
import { SERVE } from "../words/index.ts";
import { HOST, holderOf } from "./address.ts";
import { serverApp } from "./app.ts";
import { fileIn, jobFileIn } from "./files.ts";
import { listen, refusal, refuseWithHeaders } from "./listening.ts";

export interface ServeOptions {
  /** The folder of job files. */
  readonly folder: string;
  /** A job file of the folder that the app opens first. */
  readonly open?: string;
  /** Default 8734. Where it is taken, no other is tried: another port is another store of jobs. 0: any free one. */
  readonly port?: number;
  /** The built app (dist/app). */
  readonly app: string;
}

export interface Served {
  /** What to open in a browser. */
  readonly url: string;
  /** It was being served already, by this program and of this folder; closing does nothing. */
  readonly already?: true;
  close(): Promise<void>;
}

export const PORT = 8734;

/**
 * Serves the app and a folder of jobs to this machine alone (127.0.0.1), or finds it served there already. Rejects
 * with one line that says what to do where the app is not built, the file to open is not in the folder, or the port
 * is held by something else.
 */
export async function serveJobs({ folder, open, port = PORT, app }: ServeOptions): Promise<Served> {
  if (!(await fileIn(app, "index.html"))) throw new Error(SERVE.notBuilt(app));
  if (open !== undefined && !(await jobFileIn(folder, open)))
    throw new Error(SERVE.notInFolder(folder, open));
  const server = createAdaptorServer({ fetch: serverApp({ app, jobs: folder }).fetch }) as Server;
  refuseWithHeaders(server);
  const query = open === undefined ? "" : `?open=${encodeURIComponent(open)}`;
  const addressAt = (at: number): string => `http://${HOST}:${at}/${query}`;
  const taken = await listen(server, port, HOST);
  if (typeof taken === "string") {
    const holder = taken === "EADDRINUSE" ? await holderOf(port, folder) : taken;
    if (holder === "same") return { url: addressAt(port), already: true, close: async () => {} };
    throw new Error(refusal(port, holder));
  }
  return {
    url: addressAt(taken),
    close: () =>
      new Promise((resolve, reject) => {
        server.close((error) => (error ? reject(error) : resolve()));
        server.closeAllConnections();
      }),
  };
}
