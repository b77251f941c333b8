import type { Server } from "node:http";
import { createAdaptorServer } from "@hono/node-server";
import { SERVE } from "../words/index.ts";
import { HOST, holderOf } from "./address.ts";
import { serverApp } from "./app.ts";
import { fileIn, jobFileIn } from "./files.ts";
import { HEADERS } from "./policy.ts";

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
  const taken = await listen(server, port);
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

/** What never reaches the app, a host name that is none or no HTTP at all, is refused with the same headers. */
function refuseWithHeaders(server: Server): void {
  const headers = Object.entries(HEADERS);
  server.prependListener("request", (_, answer) => {
    for (const [name, value] of headers) answer.setHeader(name, value);
  });
  server.on("clientError", (_, socket) => {
    const lines = [["Connection", "close"], ["Content-Length", "0"], ...headers].map(
      ([n, v]) => `${n}: ${v}\r\n`,
    );
    if (socket.writable) socket.end(`HTTP/1.1 400 Bad Request\r\n${lines.join("")}\r\n`);
  });
}

/** The port listened on, or the system's code for why not. */
function listen(server: Server, port: number): Promise<number | string> {
  return new Promise((resolve) => {
    const onError = (error: NodeJS.ErrnoException): void => {
      server.off("listening", onListening);
      resolve(error.code ?? error.message);
    };
    const onListening = (): void => {
      server.off("error", onError);
      const address = server.address();
      resolve(typeof address === "object" && address !== null ? address.port : port);
    };
    server.once("error", onError);
    server.once("listening", onListening);
    server.listen(port, HOST);
  });
}

/** Why a port cannot be had, by who holds it or the system's code. */
function refusal(port: number, why: string): string {
  const reason =
    {
      "other folder": SERVE.otherFolder(port),
      another: SERVE.another(port),
      EACCES: SERVE.notAllowed(port),
    }[why] ?? SERVE.system(port, why);
  return SERVE.refused(reason);
}
