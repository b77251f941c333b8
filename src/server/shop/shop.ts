import { randomFillSync } from "node:crypto";
import type { Server } from "node:http";
import { createServer as createSecureServer, type Server as SecureServer } from "node:https";
import { basename, join, resolve } from "node:path";
import { createAdaptorServer } from "@hono/node-server";
import { SERVE, SHOP_SERVE } from "../../words/index.ts";
import { holderOf } from "../address.ts";
import { fileIn, jobFileIn } from "../files.ts";
import { type Gate, gate as openGate } from "../gate/index.ts";
import { folderOf, type Hub, hubOn } from "../hub/index.ts";
import { listen, refusal, refuseWithHeaders } from "../listening.ts";
import { InUse, NotOpened, openPostgres, openSqlite, type ShopStore } from "../store/index.ts";
import { sockets } from "./sockets.ts";

export interface ShopOptions {
  /** The folder of job files; what the shop keeps besides lies in it, in `.tubewright`. */
  readonly folder: string;
  /** A job file of the folder that the app opens first. */
  readonly open?: string;
  readonly port: number;
  readonly securePort: number;
  /** The built app (dist/app). */
  readonly app: string;
  /** A PostgreSQL connection string; without it, SQLite in the folder. */
  readonly database?: string;
  /** What the shop is called; the folder's name without it. */
  readonly name?: string;
}

export interface OpenedShop {
  /** The app's address on this machine. */
  readonly url: string;
  /** What lets a browser of this machine in: good for ten minutes, and once. */
  readonly firstUrl: string;
  /** Whether a device is in the shop already. */
  readonly isKnown: boolean;
  readonly addresses: { readonly http: readonly string[]; readonly https: readonly string[] };
  readonly fingerprint: string;
  close(): Promise<void>;
}

/** What falls due with time, and whether the machine's addresses are others, is looked at this often (ms). */
const UPKEEP = 60_000;

/**
 * Opens the shop: the app, its jobs and its devices, for all of the local network. Rejects with one line that says what
 * to do where it cannot.
 */
export async function openShop(options: ShopOptions): Promise<OpenedShop> {
  const { folder, open, port, securePort, app } = options;
  if (!(await fileIn(app, "index.html"))) throw new Error(SERVE.notBuilt(app));
  if (open !== undefined && !(await jobFileIn(folder, open)))
    throw new Error(SERVE.notInFolder(folder, open));
  const shop = options.name ?? basename(resolve(folder));
  const store = await storeOf(options, shop);
  const closing: (() => Promise<void> | void)[] = [() => store.close()];
  try {
    return await opened();
  } catch (error) {
    await closeAll();
    throw error;
  }

  async function closeAll(): Promise<void> {
    for (const close of closing.reverse()) await close();
  }

  async function opened(): Promise<OpenedShop> {
    let hub: Hub | undefined;
    const gate: Gate = await openGate({
      store,
      shop,
      appFolder: app,
      folder,
      now: Date.now,
      random: (bytes) => new Uint8Array(randomFillSync(Buffer.alloc(bytes))),
      ports: { http: port, https: securePort },
      news(of, job) {
        if (of === "jobs" && job !== undefined) void hub?.listed(job).catch(() => {});
        else hub?.news(of);
      },
      notices: () => hub?.notices() ?? [],
    });
    hub = await hubOn({
      store,
      folder: folderOf(folder),
      now: Date.now,
      nameOf: gate.nameOf,
      changed(kind, id) {
        if (kind === "device") void gate.changedElsewhere(id).catch(() => {});
        if (kind === "job") hub?.news("jobs");
        if (kind === "state") hub?.news("states");
      },
    });
    const middle = hub;
    closing.push(() => middle.close());
    gate.onOut((id) => {
      middle.out(id);
      middle.news("devices");
    });
    gate.onRights((id) => middle.again(id));
    const lines = sockets(gate, (socket, { id, name, rights }) =>
      middle.connect(socket, { device: id, name, rights }),
    );

    const plain = createAdaptorServer({ fetch: gate.fetch }) as Server;
    const secure = createAdaptorServer({
      fetch: gate.fetch,
      createServer: createSecureServer,
      serverOptions: gate.certificate(),
    }) as SecureServer;
    gate.onRenewed(() => secure.setSecureContext(gate.certificate()));
    for (const [server, at] of [
      [plain, port],
      [secure, securePort],
    ] as const) {
      refuseWithHeaders(server as Server);
      lines.on(server as Server);
      const got = await listen(server as Server, at);
      if (typeof got === "string")
        throw new Error(
          refusal(at, got === "EADDRINUSE" && server === plain ? await holderOf(at, folder) : got),
        );
      closing.push(
        () =>
          new Promise<void>((done) => {
            server.close(() => done());
            (server as Server).closeAllConnections();
          }),
      );
    }
    // before the listeners: those end when their last connection has
    closing.push(lines.close);
    await gate.upkeep();
    const timer = setInterval(() => void gate.upkeep().catch(() => {}), UPKEEP);
    closing.push(() => clearInterval(timer));
    const query = open === undefined ? "" : `?open=${encodeURIComponent(open)}`;
    return {
      url: `http://127.0.0.1:${port}/${query}`,
      firstUrl: (await gate.firstCode()).url,
      isKnown: (await gate.devices()) > 0,
      addresses: { http: gate.addresses(false), https: gate.addresses(true) },
      fingerprint: gate.fingerprint(),
      close: closeAll,
    };
  }
}

async function storeOf({ folder, database }: ShopOptions, shop: string): Promise<ShopStore> {
  try {
    return database === undefined
      ? await openSqlite(join(folder, ".tubewright", "shop.db"))
      : await openPostgres(database, shop);
  } catch (error) {
    if (error instanceof InUse) throw new Error(SHOP_SERVE.inUse(folder), { cause: error });
    if (error instanceof NotOpened) throw new Error(SHOP_SERVE.notOpened(error.why), { cause: error });
    throw error;
  }
}
