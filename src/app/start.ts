import demoUrl from "../../demo/sandling.json?url";
import { computerOn, workerEngine } from "./compute/index.ts";
import { keepOffline } from "./offline.ts";
import { type App, appWith } from "./state.ts";
import { indexedDisk, joinTabs, memoryDisk, storeOn } from "./storage/index.ts";

/** The app of this page, tied to the browser: its database, a worker, the other windows, the server's jobs. */
export async function startApp(): Promise<App> {
  const store = storeOn(diskOfBrowser());
  const engine = workerEngine(() => void computeInPage());
  const computer = computerOn(engine);
  const app = appWith({ store, computer, join: joinTabs });

  async function computeInPage(): Promise<void> {
    const [{ sessionWith }, { loadFonts }] = await Promise.all([
      import("./compute/session.ts"),
      import("./fonts.ts"),
    ]);
    computer.replace(sessionWith(loadFonts));
  }

  window.addEventListener("beforeunload", (event) => {
    if (app.state.getState().job?.kept.state === "refused") event.preventDefault();
  });
  await alone(async () => {
    if (!(await openAskedFor(app))) await app.do.start(demo);
  });
  keepOffline((restart) => app.do.offerRestart(restart));
  // Without it a browser short of room may throw the jobs away; it grants or not, and nothing depends on it.
  void navigator.storage?.persist?.().catch(() => false);
  return app;
}

/** How long a window waits for another that is starting (ms); then it starts all the same. */
const PATIENCE = 5000;

/** One window after the other: two that start at once on an empty device would each bring a demo along. */
async function alone(start: () => Promise<void>): Promise<void> {
  let began = false;
  const begin = (): Promise<void> => {
    began = true;
    return start();
  };
  const signal = AbortSignal.timeout(PATIENCE);
  try {
    await navigator.locks.request("tubewright start", { signal }, begin);
  } catch (error) {
    // Not granted in time, or a browser without locks; what the start itself throws is not for here.
    if (began) throw error;
    await start();
  }
}

function diskOfBrowser() {
  // Some browsers have none in private windows, or forbid even to look.
  try {
    if (window.indexedDB) return indexedDisk(window.indexedDB);
  } catch {}
  return memoryDisk();
}

async function demo() {
  return { name: "sandling.json", text: await textOf(demoUrl) };
}

async function textOf(url: string): Promise<string> {
  return new TextDecoder().decode(await fetched(url));
}

async function fetched(url: string): Promise<Uint8Array> {
  const answer = await fetch(url);
  if (!answer.ok) throw new Error(`${url}: ${answer.status}`);
  return new Uint8Array(await answer.arrayBuffer());
}

/** Opens the job file that the address asks for (`?open=NAME`, from the server's folder); false where there is none. */
async function openAskedFor(app: App): Promise<boolean> {
  const address = new URL(location.href);
  const name = address.searchParams.get("open");
  if (name === null) return false;
  address.searchParams.delete("open");
  history.replaceState(null, "", address);
  try {
    await app.do.openFile(name, await fetched(`/jobs/${encodeURIComponent(name)}`), "again");
    return app.state.getState().job !== undefined || app.state.getState().unreadable !== undefined;
  } catch {
    // The server is gone or has no such file (any more): what the device has is opened.
    return false;
  }
}
