import { spawn } from "node:child_process";
import { existsSync, statSync } from "node:fs";
import { basename, dirname } from "node:path";
import { fileURLToPath } from "node:url";
import { PORT, type Served, serveJobs } from "../server/index.ts";
import { CALL, SERVE } from "../words/index.ts";
import { type Command, numberOf, WrongCall, words } from "./call.ts";

export const serve: Command = {
  run: async (args, platform) => {
    const { values, positionals } = words(args, { port: { type: "string" } });
    const [path = ".", extra] = positionals;
    if (extra !== undefined) throw new WrongCall(CALL.oneFolder(extra));
    const port = values.port === undefined ? PORT : numberOf("port", values.port, 1, 65535);
    if (!Number.isInteger(port)) throw new WrongCall(CALL.port(port));
    if (!existsSync(path)) {
      platform.err(`${CALL.noPath(path)}\n`);
      return 2;
    }
    const isFolder = statSync(path).isDirectory();
    // Beside the built command line.
    const app = fileURLToPath(new URL("app/", import.meta.url));
    let served: Served;
    try {
      served = await serveJobs({
        folder: isFolder ? path : dirname(path),
        ...(isFolder ? {} : { open: basename(path) }),
        port,
        app,
      });
    } catch (error) {
      platform.err(`${(error as Error).message}\n`);
      return 2;
    }
    if (served.already) {
      platform.out(`${SERVE.already}\n${served.url}\n`);
      openInBrowser(served.url);
      return 0;
    }
    // The address comes last, on a line of its own, where it is found and taken.
    platform.out(`${SERVE.serving}\n${served.url}\n`);
    await stopped();
    await served.close();
    return 0;
  },
};

/** Opens the page in the user's browser; a machine without one has the address in print. */
function openInBrowser(url: string): void {
  const openers: Readonly<Record<string, readonly [string, ...string[]]>> = {
    darwin: ["open"],
    win32: ["rundll32", "url.dll,FileProtocolHandler"],
  };
  const [command, ...args] = openers[process.platform] ?? ["xdg-open"];
  const child = spawn(command, [...args, url], { detached: true, stdio: "ignore" });
  child.once("error", () => {});
  child.unref();
}

const stopped = (): Promise<void> =>
  new Promise((resolve) => {
    process.once("SIGINT", () => resolve());
    process.once("SIGTERM", () => resolve());
  });
