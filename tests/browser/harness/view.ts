import type { ViewExtras } from "../../../src/app/cage/index.ts";
import { createViewer } from "../../../src/app/cage/later.ts";
import { platesOf } from "../../../src/app/cage/plates.ts";
import { darkTheme, lightTheme } from "../../../src/app/cage/theme.ts";
import { type Job, PROGRESS, type Progress, readJob } from "../../../src/core/job/index.ts";
import { tubeMesh } from "../../../src/core/mesh/index.ts";
import { type Plan, placedPoints, planJob } from "../../../src/core/plan/index.ts";

/** A page with nothing but the viewer on it, for tests and for looking at. */
const canvas = document.querySelector("canvas")!;
const taps: { id: string | null; along: number | undefined }[] = [];
const stands: string[] = [];
const contexts: boolean[] = [];
const options = new URLSearchParams(location.search);
const began = performance.now();
const read = readJob(await (await fetch("/job.json")).text());
if (!read.ok) throw new Error("the demo does not read");

const meshes = new WeakMap<object, ReturnType<typeof tubeMesh>>();
let plan: Plan = planJob(read.job);
const barsOf = (of: Plan, stage: (i: number) => Progress, attention: readonly string[]) =>
  of.bars.map((b, i) => {
    const mesh = meshes.get(b) ?? tubeMesh(b.bar, { A: b.copes.A.cope, B: b.copes.B.cope });
    meshes.set(b, mesh);
    const state = attention.includes(b.id) ? ("attention" as const) : ("plain" as const);
    return { id: b.id, label: b.bar.label, mesh, progress: stage(i), state };
  });

const names = document.createElement("div");
names.className = "names";
names.style.cssText = "position:absolute;inset:0;pointer-events:none;overflow:hidden;font:15px sans-serif";
const sheet = document.createElement("style");
sheet.textContent = `.names > * { position: absolute; inset: 0 auto auto 0; white-space: nowrap; box-sizing: border-box }
  .names > [data-away] { visibility: hidden } .names > i { border: 1px solid; border-radius: 50% }`;
document.head.append(sheet);
document.body.append(names);
const tappedPoints: string[] = [];

const viewer = createViewer(canvas, {
  onTap: (id, at) => taps.push({ id, along: at?.along }),
  onPoint: (id) => tappedPoints.push(id),
  names,
  onCamera: (text) => stands.push(text),
  onContext: (alive) => contexts.push(alive),
  theme: options.has("dark") ? darkTheme : lightTheme,
});

type Show = {
  readonly stages?: Progress;
  readonly attention?: readonly string[];
  readonly extras?: boolean;
  readonly points?: ViewExtras["points"];
};
function show({ stages, attention = [], extras = true, points = placedPoints(plan.places) }: Show): void {
  viewer.setBars(barsOf(plan, (i) => stages ?? PROGRESS[i % PROGRESS.length]!, attention));
  const bare = { plates: {}, points: {}, body: { lines: {}, skin: {} } };
  viewer.setExtras(extras ? { ...plan.job, points, plates: platesOf(plan) } : bare);
}

/** The demo with its hoop's corners moved forward. */
function moveHoop(by: number): { readonly changed: number; readonly ms: number } {
  const old = plan.job.bars["main-hoop"]!;
  if (old.kind !== "path") throw new Error("the hoop has a path");
  const path = old.path.map((n) =>
    n.kind === "at" ? { ...n, at: [n.at[0] + by, n.at[1], n.at[2]] as const } : n,
  );
  const job: Job = { ...plan.job, bars: { ...plan.job.bars, "main-hoop": { ...old, path } } };
  const next = planJob(job, plan);
  const changed = next.bars.filter((b) => plan.byId.get(b.id) !== b).length;
  plan = next;
  const t = performance.now();
  show({});
  return { changed, ms: performance.now() - t };
}

/** The demo many times over, side by side: bars drawn for a large job. */
function many(copies: number): number {
  const list = Array.from({ length: copies }, (_, k) =>
    plan.bars.map((b) => ({
      id: `${b.id} ${k}`,
      label: b.bar.label,
      mesh: tubeMesh(b.bar, { A: b.copes.A.cope, B: b.copes.B.cope }, { origin: [0, 1500 * k, 0] }),
      progress: "welded" as const,
      state: "plain" as const,
    })),
  ).flat();
  viewer.setBars(list.map((b) => ({ ...b, mesh: { ...b.mesh, origin: [0, 0, 0] as const } })));
  viewer.look("three-quarter");
  return list.length;
}

const frame = (): Promise<number> => new Promise((done) => requestAnimationFrame(done));
/** Milliseconds from one picture to the next while the view turns, read back so that drawing is really done. */
async function turning(pictures: number): Promise<number> {
  const gl = canvas.getContext("webgl2")!;
  const pixel = new Uint8Array(4);
  const times: number[] = [];
  for (let i = 0; i < pictures; i++) {
    const t = performance.now();
    canvas.dispatchEvent(new KeyboardEvent("keydown", { key: "ArrowRight" }));
    await frame();
    gl.readPixels(0, 0, 1, 1, gl.RGBA, gl.UNSIGNED_BYTE, pixel);
    times.push(performance.now() - t);
  }
  return times.sort((a, b) => a - b)[Math.floor(pictures / 2)]!;
}

/** Until the smooth picture of rest is drawn and nothing follows it. */
const settle = async (): Promise<void> => {
  let before = -1;
  while (before !== viewer.drawn().frames || !viewer.drawn().isSmooth) {
    before = viewer.drawn().frames;
    await new Promise((done) => setTimeout(done, 60));
  }
};

show({});
await settle();
const ready = performance.now() - began;
Object.assign(window, {
  harness: {
    viewer,
    show,
    moveHoop,
    many,
    turning,
    settle,
    taps,
    tappedPoints,
    stands,
    contexts,
    ready,
    lightTheme,
    darkTheme,
  },
});
export type Harness = {
  readonly viewer: typeof viewer;
  readonly show: typeof show;
  readonly moveHoop: typeof moveHoop;
  readonly many: typeof many;
  readonly turning: typeof turning;
  readonly settle: typeof settle;
  readonly taps: typeof taps;
  readonly tappedPoints: typeof tappedPoints;
  readonly stands: typeof stands;
  readonly contexts: typeof contexts;
  readonly ready: number;
  readonly lightTheme: typeof lightTheme;
  readonly darkTheme: typeof darkTheme;
};
declare global {
  interface Window {
    harness: Harness;
  }
}
