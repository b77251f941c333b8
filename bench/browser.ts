import { mkdtemp, readFile, rm } from "node:fs/promises";
import { loadavg, tmpdir } from "node:os";
import { join } from "node:path";
import { gzipSync } from "node:zlib";
import { type BrowserContext, chromium, type Page } from "playwright-core";
import { serveJobs } from "../src/server/index.ts";
import { builtApp, CHROMIUM, FLAGS } from "../tests/browser/built.ts";
import { type Drag, type Dragged, drag, turned, type Watched, watch } from "./in-page.ts";
import { median, type Row } from "./measure.ts";

const WINDOW = { width: 1280, height: 800 };
const TIMES = 60;

/**
 * As the browser itself goes about it without a graphics card: the window composed in plain software, the cage drawn
 * by the software renderer. (The tests also force the window through that renderer, which doubles every picture's work.)
 */
const WITHOUT_CARD = ["--enable-unsafe-swiftshader"];

/** A light bar that lands on two others, moved along one of them. */
const LANDING = (copy = ""): Drag["path"] => ["bars", `roof-cross-rear-half${copy}`, "path", 0, "along"];
/** A corner of the main hoop: half of the cage hangs on it. */
const HOOP: Drag["path"] = ["bars", "main-hoop", "path", 2, 0];

/**
 * The app in a real browser on this machine, drawn in software: how soon the cage is there, how an edit follows the
 * hand, a large job, and what comes over the network. Times are of the machine as loaded as it is: see the first row.
 */
export async function browserRows(): Promise<Row[]> {
  const app = await builtApp();
  const profile = await mkdtemp(join(tmpdir(), "bench-"));
  const server = await serveJobs({ folder: "demo", port: 0, app });
  const context = await chromium.launchPersistentContext(profile, {
    executablePath: CHROMIUM,
    args: [...FLAGS, ...WITHOUT_CARD],
    viewport: WINDOW,
  });
  // Names that the loader of this file gives to functions mean nothing in the page.
  await context.addInitScript("globalThis.__name = (f) => f");
  await context.addInitScript(watch);
  const load = loadavg()[0]!;
  try {
    const page = await context.newPage();
    const weight = await firstLoad(page, server.url, app);
    const cage = await soonest(page, server.url);
    const light = await dragged(page, LANDING(), 1);
    const hoop = await dragged(page, HOOP, 1);
    const turning = await turnedAt(context, page);
    const large = await largeJob(context, page, await manyBars(300));
    return [
      {
        what: "load of the machine before (two cores: 0 is free, above 2 others are in the way)",
        value: load,
        unit: "",
      },
      { what: "first page load, compressed", value: weight.first, unit: "kB", promise: { atMost: 450 } },
      { what: "with the picture's program, which comes with the wall", value: weight.wall, unit: "kB" },
      { what: "demo, warm: first picture of the cage", value: cage, unit: "ms", promise: { atMost: 1500 } },
      ...rowsOf("a landing moved", light, { picture: 33, computed: 8, held: 50 }),
      ...rowsOf("the main hoop moved", hoop, { picture: 33 }),
      ...turningRows("demo", turning),
      { what: "demo turned: picture", value: turning.picture, unit: "ms" },
      {
        what: "  processor time of the graphics for it, the window's included",
        value: turning.work,
        unit: "ms",
      },
      ...turningRows(`${large.bars} bars`, large.turning),
      {
        what: `${large.bars} bars turned: picture`,
        value: large.turning.picture,
        unit: "ms",
        promise: { atMost: 100 },
      },
      { what: "  processor time of the graphics for it", value: large.turning.work, unit: "ms" },
      ...rowsOf(`${large.bars} bars, a landing moved`, large.edit, { picture: 50 }),
    ];
  } finally {
    await context.close();
    await server.close();
    await rm(profile, { recursive: true, force: true, maxRetries: 5 });
  }
}

/** 60 pictures a second: what the page itself may take for one, with the graphics' own work left out. */
const FRAME = 1000 / 60;

const turningRows = (what: string, { issued }: Turning): Row[] => [
  {
    what: `${what} turned: the page's part of a picture (60 a second)`,
    value: issued,
    unit: "ms",
    promise: { atMost: FRAME },
  },
];

/** Most that is promised (ms). */
interface Promised {
  readonly picture?: number;
  readonly computed?: number;
  readonly held?: number;
}

function rowsOf(what: string, of: Dragged, promised: Promised): Row[] {
  const promise = (atMost: number | undefined) => (atMost === undefined ? {} : { promise: { atMost } });
  return [
    {
      what: `${what}, ${median(of.moved)} moved: command to picture`,
      value: median(of.redrawn),
      unit: "ms",
      ...promise(promised.picture),
    },
    {
      what: "  of it the worker computes",
      value: median(of.computed),
      unit: "ms",
      ...promise(promised.computed),
    },
    {
      what: "  the page is held at the longest (0: below 50 ms)",
      value: of.held,
      unit: "ms",
      ...promise(promised.held),
    },
  ];
}

/** What the very first load of the page asks for, and with the cage on the screen (kB, compressed as it can be sent). */
async function firstLoad(page: Page, url: string, app: string): Promise<{ first: number; wall: number }> {
  const asked = new Set<string>();
  // What the service worker stores for later is not in the way of the first page.
  page.context().on("request", (request) => {
    if (!request.serviceWorker()) asked.add(new URL(request.url()).pathname);
  });
  await page.goto(url);
  await computed(page);
  await page.waitForTimeout(500);
  const first = await compressed(app, asked);
  await page.goto(`${url}#`);
  await page.waitForFunction(() => (window as unknown as Watched).cage);
  await page.waitForTimeout(2000);
  return { first, wall: await compressed(app, asked) };
}

async function compressed(app: string, paths: ReadonlySet<string>): Promise<number> {
  const files = [...paths]
    .map((path) => (path === "/" ? "/index.html" : path))
    .filter((p) => /\.(js|css|html)$/.test(p));
  const sizes = await Promise.all(files.map(async (p) => gzipSync(await readFile(join(app, p))).length));
  return sizes.reduce((sum, size) => sum + size, 0) / 1000;
}

const computed = (page: Page): Promise<unknown> =>
  page.waitForFunction(() => {
    const state = (window as unknown as Partial<Watched>).tubewright?.state.getState();
    return state?.job && state.results.document === state.job.document && !state.results.computing;
  });

/** Median of loads on a warm profile. */
async function soonest(page: Page, url: string): Promise<number> {
  const times: number[] = [];
  for (let i = 0; i < 5; i++) {
    await page.goto("about:blank");
    await page.goto(url);
    const cage = await page.waitForFunction(() => (window as unknown as Watched).cage);
    times.push((await cage.jsonValue()) as number);
    await page.waitForTimeout(1000);
  }
  return median(times);
}

/** Once with every picture waited for, and once without, for that is when the page must be free. */
async function dragged(page: Page, path: Drag["path"], step: number): Promise<Dragged> {
  const run = (isRead: boolean): Promise<Dragged> =>
    page.evaluate(drag, { path, step, times: TIMES, isRead });
  await run(false);
  const read = await run(true);
  return { ...read, held: (await run(false)).held };
}

/** The demo's bars again and again under new names, each car a little apart from the last. */
async function manyBars(bars: number): Promise<string> {
  const demo = JSON.parse(await readFile("demo/sandling.json", "utf8")) as { bars: Record<string, unknown> };
  const own = Object.keys(demo.bars).length;
  const all: Record<string, unknown> = {};
  for (let k = 0; k < Math.ceil(bars / own); k++) {
    const text = JSON.stringify(demo.bars, (key, value: unknown) => {
      if ((key === "on" || key === "mirrorOf") && typeof value === "string") return `${value}~${k}`;
      return key === "along" && typeof value === "number" ? value + 0.001 * k : value;
    });
    for (const [id, bar] of Object.entries(JSON.parse(text) as object)) all[`${id}~${k}`] = bar;
  }
  return JSON.stringify({ ...demo, bars: all });
}

interface Turning {
  /** Median time of a picture (ms), of the page's part of it, and what the graphics worked for each. */
  readonly picture: number;
  readonly issued: number;
  readonly work: number;
}

async function turnedAt(context: BrowserContext, page: Page): Promise<Turning> {
  const times = 30;
  const session = await context.browser()!.newBrowserCDPSession();
  const work = async (): Promise<number> => {
    const { processInfo } = await session.send("SystemInfo.getProcessInfo");
    return 1000 * (processInfo.find((p) => p.type === "GPU")?.cpuTime ?? Number.NaN);
  };
  await page.evaluate(turned, 5);
  const before = await work();
  const pictures = await page.evaluate(turned, times);
  const spent = (await work()) - before;
  await session.detach();
  return {
    picture: median(pictures.map((p) => p.picture)),
    issued: median(pictures.map((p) => p.issued)),
    work: spent / times,
  };
}

async function largeJob(
  context: BrowserContext,
  page: Page,
  text: string,
): Promise<{ readonly bars: number; readonly turning: Turning; readonly edit: Dragged }> {
  await page.evaluate(
    (job) => (window as unknown as Watched).tubewright.do.openFile("large.json", job),
    text,
  );
  await computed(page);
  await page.waitForTimeout(3000);
  const bars = await page.evaluate(
    () => (window as unknown as Watched).tubewright.state.getState().results.bars.size,
  );
  const turning = await turnedAt(context, page);
  const run = (isRead: boolean): Promise<Dragged> =>
    page.evaluate(drag, { path: LANDING("~3"), step: 1, times: 20, isRead });
  const edit = await run(true);
  return { bars, turning, edit: { ...edit, held: (await run(false)).held } };
}
