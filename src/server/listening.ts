import type { Server } from "node:http";
import { SERVE } from "../words/index.ts";
import { HEADERS } from "./policy.ts";

/** What never reaches the app, a host name that is none or no HTTP at all, is refused with the same headers. */
export function refuseWithHeaders(server: Server): void {
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

/** The port listened on, of one address or of all that the machine has; or the system's code for why not. */
export function listen(server: Server, port: number, host?: string): Promise<number | string> {
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
    server.listen(port, host);
  });
}

/** Why a port cannot be had, by who holds it or the system's code. */
export function refusal(port: number, why: string): string {
  const reason =
    {
      "other folder": SERVE.otherFolder(port),
      another: SERVE.another(port),
      EACCES: SERVE.notAllowed(port),
    }[why] ?? SERVE.system(port, why);
  return SERVE.refused(reason);
}
