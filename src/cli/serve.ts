import { spawn } from "node:child_process";
import { existsSync, statSync } from "node:fs";
import { basename, dirname } from "node:path";
import { fileURLToPath } from "node:url";
import { PORT, type Served, serveJobs } from "../server/index.ts";
import type { OpenedShop, ShopOptions } from "../server/shop/index.ts";
import { CALL, SERVE, SHOP_SERVE } from "../words/index.ts";
import { type Command, type ExitCode, numberOf, WrongCall, words } from "./call.ts";
import type { Platform } from "./platform.ts";

const SECURE_PORT = 8735;

export const serve: Command = {
  run: async (args, platform) => {
    const { values, positionals } = words(args, {
      port: { type: "string" },
      shop: { type: "boolean" },
      "secure-port": { type: "string" },
      database: { type: "string" },
      name: { type: "string" },
    });
    const [path = ".", extra] = positionals;
    if (extra !== undefined) throw new WrongCall(CALL.oneFolder(extra));
    const port = portOf("port", values.port, PORT);
    const securePort = portOf("secure-port", values["secure-port"], SECURE_PORT);
    for (const option of ["secure-port", "database", "name"] as const)
      if (!values.shop && values[option] !== undefined) throw new WrongCall(SHOP_SERVE.onlyShop(option));
    if (values.shop && port === securePort) throw new WrongCall(SHOP_SERVE.samePort(port));
    if (!existsSync(path)) {
      platform.err(`${CALL.noPath(path)}\n`);
      return 2;
    }
    const isFolder = statSync(path).isDirectory();
    // Beside the built command line.
    const app = fileURLToPath(new URL("app/", import.meta.url));
    const where = {
      folder: isFolder ? path : dirname(path),
      ...(isFolder ? {} : { open: basename(path) }),
      port,
      app,
    };
    if (values.shop) {
      const { database, name } = values;
      return shopOn(platform, {
        ...where,
        securePort,
        ...(database === undefined ? {} : { database }),
        ...(name === undefined ? {} : { name }),
      });
    }
    let served: Served;
    try {
      served = await serveJobs(where);
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

const portOf = (option: string, given: string | undefined, otherwise: number): number => {
  const port = given === undefined ? otherwise : numberOf(option, given, 1, 65535);
  if (!Number.isInteger(port)) throw new WrongCall(CALL.port(port));
  return port;
};

type ShopRoom = typeof import("../server/shop/index.ts");

/** The shop, until it is stopped. A bundle of its own (tools/build.mjs): a machine alone does without all that it loads. */
async function shopOn(platform: Platform, options: ShopOptions): Promise<ExitCode> {
  let shop: OpenedShop;
  try {
    const { openShop } = (await import(new URL("shop.mjs", import.meta.url).href)) as ShopRoom;
    shop = await openShop(options);
  } catch (error) {
    platform.err(`${(error as Error).message}\n`);
    return 2;
  }
  const { addresses, fingerprint, firstUrl, isKnown, url } = shop;
  platform.out(`${SHOP_SERVE.serving}\n${SHOP_SERVE.addresses([...addresses.https, ...addresses.http])}\n`);
  platform.out(`${SHOP_SERVE.fingerprint(fingerprint)}\n${SHOP_SERVE.others}\n`);
  // The address to open comes last, on a line of its own, where it is found and taken.
  platform.out(
    isKnown
      ? `${SHOP_SERVE.first}\n${firstUrl}\n${SHOP_SERVE.here}\n${url}\n`
      : `${SHOP_SERVE.first}\n${firstUrl}\n`,
  );
  await stopped();
  await shop.close();
  return 0;
}

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
