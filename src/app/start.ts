import { nothingSaved, SHOP_START, START } from "../words/index.ts";
import { fetched, recall, remember } from "./kit/index.ts";
import { computerOn, type Engine, engineInPage, workerEngine } from "./model/compute/index.ts";
import { type App, appWith } from "./model/state/index.ts";
import {
  type Disk,
  faultOf,
  indexedDisk,
  joinTabs,
  memoryDisk,
  NoDatabase,
  storeOn,
  within,
} from "./model/storage/index.ts";
import { keepOffline } from "./offline.ts";
import { demoText, isDemo } from "./shell/index.ts";
import type { Tie } from "./shop/index.ts";

/** The app of this page, tied to the browser: its database, a worker, the other windows. Nothing is open yet. */
export async function appOfPage(): Promise<App> {
  const [isOfShop, kept] = await Promise.all([ofShop(), isPlain() ? undefined : diskOfBrowser()]);
  const disk = kept ?? (isOfShop ? memoryDisk(SHOP_START.plain) : await diskOfBrowser());
  const computer = computerOn(engineOfBrowser(() => void computeInPage()));
  const store = storeOn(disk);
  let tie: Tie | undefined;
  const app: App = appWith({
    store,
    computer,
    later: inOwnTask(),
    isDemo: ({ file }) => file !== undefined && isDemo(file.name),
    join(doc, job) {
      const leave = tie?.join(doc, job);
      try {
        const leaveTabs = joinTabs(doc, job);
        return () => {
          leave?.();
          leaveTabs();
        };
      } catch {
        app.do.caution("windows", START.oneWindow);
        return () => leave?.();
      }
    },
  });
  if (isOfShop) {
    const { tieToShop } = await import("./shop/index.ts");
    tie = tieToShop(app, store);
    await tie.ready;
  }

  async function computeInPage(): Promise<void> {
    app.do.caution("worker", START.inPage);
    try {
      computer.replace(await engineInPage());
    } catch {
      app.do.caution("worker", START.noProgram);
    }
  }
  return app;
}

/** Runs what it is given in the next task: sooner than a timer, which waits, and after what this task has drawn. */
function inOwnTask(): (tell: () => void) => void {
  const { port1, port2 } = new MessageChannel();
  const due: (() => void)[] = [];
  port1.onmessage = () => due.shift()?.();
  return (tell) => {
    due.push(tell);
    port2.postMessage(0);
  };
}

/** How long the server is asked whether it is a shop's (ms); a shop's device knows from before, and asks no one. */
const ASK = 1000;
const OF_SHOP = "of shop";
/** The shop PC itself. */
const HERE = "127.0.0.1";
/** Another device's page over plain http: it keeps nothing, so that no second store strands anything. */
const isPlain = (): boolean => location.protocol === "http:" && location.hostname !== HERE;

/** Whether this page is of a shop (`serve --shop`). */
async function ofShop(): Promise<boolean> {
  try {
    const answer = await fetch("/.well-known/tubewright", { signal: AbortSignal.timeout(ASK) });
    const who = answer.ok ? ((await answer.json()) as { readonly shop?: boolean }) : { shop: true };
    remember(OF_SHOP, who.shop ? "yes" : "");
    return who.shop === true;
  } catch {
    return recall(OF_SHOP) === "yes";
  }
}

/** Opens what is to be open, step by step; each is waited for a while and no longer, and what it lacks is shown. */
export async function begin(app: App): Promise<void> {
  window.addEventListener("beforeunload", (event) => {
    const { job } = app.state.getState();
    const isEdited = job?.undo !== undefined || job?.redo !== undefined;
    if (job?.kept.state === "refused" || (job?.kept.state === "memory" && isEdited)) event.preventDefault();
  });
  app.do.starting(START.waiting);
  await alone(async () => {
    app.do.starting(START.opening);
    if (!(await openAskedFor(app))) await app.do.start(() => firstOf(app));
  });
  app.do.starting();
  keepOffline((restart) => app.do.offerRestart(restart));
  await askToStay(app);
}

/** How long a window waits for another that is starting (ms); then it starts all the same. */
const PATIENCE = 5000;

/** One window after the other: two that start at once on an empty device would each bring a demo along. */
async function alone(start: () => Promise<void>): Promise<void> {
  let began = false;
  const once = async (): Promise<void> => {
    if (began) return;
    began = true;
    await start();
  };
  try {
    const signal = AbortSignal.timeout(PATIENCE);
    await navigator.locks.request("tubewright start", { signal }, once);
  } catch (error) {
    // Not granted in time, or a browser without locks; what the start itself throws is not for here.
    if (began) throw error;
    await once();
  }
}

/** The browser's database, or memory with the reason where that does not open in time. */
async function diskOfBrowser(): Promise<Disk> {
  try {
    const disk = indexedDisk(factoryOfBrowser());
    await within(disk.opened());
    return disk;
  } catch (error) {
    return memoryDisk(nothingSaved(faultOf(error)));
  }
}

function factoryOfBrowser(): IDBFactory {
  // Some browsers have none in private windows, or forbid even to look.
  if (!window.indexedDB) throw new NoDatabase();
  return window.indexedDB;
}

/** The worker; where there are none, an engine that answers nothing until it is replaced. */
function engineOfBrowser(onFailure: () => void): Engine {
  try {
    return workerEngine(onFailure);
  } catch {
    queueMicrotask(onFailure);
    const never = (): Promise<never> => new Promise(() => {});
    return { compute: never, notch: never, card: never, preview: never, pdf: never, ask: never, close() {} };
  }
}

/** Without it a browser short of room may throw the jobs away. It grants or not; asking is all that can be done. */
async function askToStay(app: App): Promise<void> {
  if (app.state.getState().passing !== undefined) return;
  const isGranted = await navigator.storage?.persist?.().catch(() => false);
  if (isGranted) return;
  app.do.caution("storage", START.unprotected);
}

/** What is opened on a device that has no job: the shop's newest, else the demo, which a shop's other devices do without. */
async function firstOf(app: App) {
  const { shop } = app.state.getState();
  const newest = shop?.jobs.filter((j) => j.deleted === undefined).sort((a, b) => b.changed - a.changed)[0];
  if (newest && (await shop?.fetch(newest.id))) return undefined;
  if (shop && location.hostname !== HERE) return undefined;
  return { name: "sandling.json", text: await demoText("sandling.json") };
}

/** Opens the shop's job of a file of its folder. */
async function openOfShop(app: App, file: string): Promise<boolean> {
  const { shop } = app.state.getState();
  const found = shop?.jobs.find((j) => j.file === file && j.deleted === undefined);
  if (!shop || !found) return false;
  await app.do.list();
  const isHere = app.state.getState().jobs.some(({ id }) => id === found.id);
  return isHere ? app.do.openJob(found.id) : shop.fetch(found.id);
}

/** Opens the job file that the address asks for (`?open=NAME`, from the server's folder); false where there is none. */
async function openAskedFor(app: App): Promise<boolean> {
  const address = new URL(location.href);
  const name = address.searchParams.get("open");
  if (name === null) return false;
  address.searchParams.delete("open");
  history.replaceState(null, "", address);
  try {
    if (await openOfShop(app, name)) return true;
    const file = await fetched(`/jobs/${encodeURIComponent(name)}`);
    await app.do.openFile(name, new Uint8Array(await file.arrayBuffer()), "again");
    return app.state.getState().job !== undefined || app.state.getState().unreadable !== undefined;
  } catch {
    app.do.caution("server", START.noFile(name));
    return false;
  }
}
