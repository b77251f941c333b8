import type { Server } from "node:http";
import { createAdaptorServer } from "@hono/node-server";
import { serverApp } from "./app.ts";
import { fileIn, jobFileIn } from "./files.ts";
import { HEADERS } from "./policy.ts";

export interface ServeOptions {
  /** The folder of job files. */
  readonly folder: string;
  /** A job file of the folder that the app opens first. */
  readonly open?: string;
  /** Default 8734; where it is taken, the next ones are tried. 0: any free one. */
  readonly port?: number;
  /** The built app (dist/app). */
  readonly app: string;
}

export interface Served {
  /** What to open in a browser. */
  readonly url: string;
  close(): Promise<void>;
}

export const PORT = 8734;

/** How many ports are tried. */
const TRIES = 20;

/**
 * Serves the app and a folder of jobs to this machine alone (127.0.0.1). Rejects with one line that says what to do
 * where the app is not built, the file to open is not in the folder, or no port is free.
 */
export async function serveJobs({ folder, open, port = PORT, app }: ServeOptions): Promise<Served> {
  if (!(await fileIn(app, "index.html")))
    throw new Error(`${app}: the app is not built; run npm run build:app`);
  if (open !== undefined && !(await jobFileIn(folder, open)))
    throw new Error(`${folder}: there is no job file ${JSON.stringify(open)} in it`);
  const server = createAdaptorServer({ fetch: serverApp({ app, jobs: folder }).fetch }) as Server;
  refuseWithHeaders(server);
  const taken = await listen(server, port);
  const query = open === undefined ? "" : `?open=${encodeURIComponent(open)}`;
  return {
    url: `http://127.0.0.1:${taken}/${query}`,
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

async function listen(server: Server, first: number): Promise<number> {
  for (let port = first; port < first + TRIES; port++) {
    const found = await tryPort(server, port);
    if (found !== undefined) return found;
  }
  throw new Error(`ports ${first} to ${first + TRIES - 1} are all taken; name another`);
}

/** The port listened on; undefined where it is taken. */
function tryPort(server: Server, port: number): Promise<number | undefined> {
  return new Promise((resolve, reject) => {
    const onError = (error: NodeJS.ErrnoException): void => {
      server.off("listening", onListening);
      if (error.code === "EADDRINUSE" || error.code === "EACCES") resolve(undefined);
      else reject(error);
    };
    const onListening = (): void => {
      server.off("error", onError);
      const address = server.address();
      resolve(typeof address === "object" && address !== null ? address.port : port);
    };
    server.once("error", onError);
    server.once("listening", onListening);
    server.listen(port, "127.0.0.1");
  });
}
