import { endsOf } from "../../../src/app/cage/ends.ts";
import type { ViewExtras } from "../../../src/app/cage/index.ts";
import { createViewer } from "../../../src/app/cage/later.ts";
import { platesOf } from "../../../src/app/cage/plates.ts";
import { seenAt } from "../../../src/app/cage/project.ts";
import { darkTheme, lightTheme } from "../../../src/app/cage/theme.ts";
import { placeAt } from "../../../src/core/bar/index.ts";
import { type Job, PROGRESS, type Progress, readJob } from "../../../src/core/job/index.ts";
import { tubeMesh } from "../../../src/core/mesh/index.ts";
import { type BarPlan, type Plan, placedPoints, planJob } from "../../../src/core/plan/index.ts";
import type { Vec } from "../../../src/core/space/index.ts";

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
const about = ({ bar: { seat, centreline } }: BarPlan) => ({
  hosts: [seat.A, seat.B].flatMap((s) => (s.kind === "on" ? s.hosts : [])),
  corners: [...centreline.bends, ...centreline.small],
});
const barsOf = (of: Plan, stage: (i: number) => Progress, attention: readonly string[]) =>
  of.bars.map((b, i) => {
    const mesh = meshes.get(b) ?? tubeMesh(b.bar, { A: b.copes.A.cope, B: b.copes.B.cope });
    meshes.set(b, mesh);
    const state = attention.includes(b.id) ? ("attention" as const) : ("plain" as const);
    return { id: b.id, label: b.bar.label, mesh, progress: stage(i), state, ...about(b) };
  });

const names = document.createElement("div");
names.className = "names";
names.style.cssText = "position:absolute;inset:0;pointer-events:none;overflow:hidden;font:15px sans-serif";
const sheet = document.createElement("style");
sheet.textContent = `.names > *, .names > div > * { position: absolute; inset: 0 auto auto 0; white-space: nowrap; box-sizing: border-box }
  .names b { height: 1px; background: gray; transform-origin: 0 0 } .names span { font-size: 14px; padding: 0 3px }
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

/** The demo with a light bar landed so far on along its host: each step drawn at once, as a drag does. */
function moveLanding(by: number): void {
  const old = plan.job.bars["roof-cross-rear-half"]!;
  if (old.kind !== "path") throw new Error("the bar has a path");
  const path = old.path.map((n) =>
    n.kind === "on" && n.where.by === "along"
      ? { ...n, where: { ...n.where, along: n.where.along + by } }
      : n,
  );
  const job: Job = { ...plan.job, bars: { ...plan.job.bars, "roof-cross-rear-half": { ...old, path } } };
  plan = planJob(job, plan);
  show({});
}

/** Every pixel of the canvas as it is now. */
function pixels(): Uint8Array {
  const gl = canvas.getContext("webgl2")!;
  const data = new Uint8Array(4 * canvas.width * canvas.height);
  gl.readPixels(0, 0, canvas.width, canvas.height, gl.RGBA, gl.UNSIGNED_BYTE, data);
  return data;
}

/**
 * Pixels that differ: of the part drawn anew from the whole drawn anew (none may), and of that whole from the picture
 * before the last step.
 */
async function drawnInPart(steps: readonly number[]) {
  const found: { isPart: boolean; wrong: number; moved: number }[] = [];
  const apart = (a: Uint8Array, b: Uint8Array): number => a.reduce((n, v, i) => n + (v === b[i] ? 0 : 1), 0);
  for (const by of steps) {
    const before = pixels();
    moveLanding(by);
    await Promise.resolve();
    const { isPart } = viewer.drawn();
    const part = pixels();
    viewer.setTheme(options.has("dark") ? darkTheme : lightTheme);
    await frame();
    await frame();
    const whole = pixels();
    found.push({ isPart, wrong: apart(part, whole), moved: apart(before, whole) });
  }
  return found;
}

/** The demo many times over, side by side: bars drawn for a large job. */
function many(copies: number): number {
  const list = Array.from({ length: copies }, (_, k) =>
    plan.bars.map((b) => ({
      id: `${b.id} ${k}`,
      label: `${b.bar.label} ${k}`,
      mesh: tubeMesh(b.bar, { A: b.copes.A.cope, B: b.copes.B.cope }, { origin: [0, 1500 * k, 0] }),
      progress: "welded" as const,
      state: "plain" as const,
      ...about(b),
    })),
  ).flat();
  viewer.setBars(list.map((b) => ({ ...b, mesh: { ...b.mesh, origin: [0, 0, 0] as const } })));
  viewer.look("three-quarter");
  return list.length;
}

/** Where a place is seen in the picture. */
const seen = (place: Vec): { readonly x: number; readonly y: number } | undefined =>
  seenAt(viewer.camera(), place, [canvas.clientWidth, canvas.clientHeight]);

/** Places on a bar's centreline, evenly spread from one share of its length to another. */
function along(id: string, from: number, to: number, count: number): readonly Vec[] {
  const { centreline } = plan.byId.get(id)!.bar;
  return Array.from(
    { length: count },
    (_, i) => placeAt(centreline, centreline.length * (from + ((to - from) * i) / Math.max(1, count - 1))).at,
  );
}

/** Names that are shown, and what is wrong with where they lie. */
function shownNames(): { readonly shown: readonly string[]; readonly bad: readonly string[] } {
  const all = [...document.querySelectorAll<HTMLElement>(".names > div:not([data-away])")].map((e) => ({
    says: e.textContent!,
    kind: e.dataset.kind,
    box: e.lastElementChild!.getBoundingClientRect(),
    leader: lineOf(e.firstElementChild as HTMLElement),
  }));
  const bad: string[] = [];
  all.forEach(({ says, kind, box, leader }, i) => {
    if (box.left < 0 || box.top < 0 || box.right > innerWidth || box.bottom > innerHeight)
      bad.push(`${says} out`);
    for (const other of all.slice(i + 1)) {
      const b = other.box;
      if (box.left < b.right && b.left < box.right && box.top < b.bottom && b.top < box.bottom)
        bad.push(`${says} on ${other.says}`);
    }
    for (const other of all) {
      if (other.says === says) continue;
      const onIt = leader.some(
        ({ x, y }) => x > other.box.left && x < other.box.right && y > other.box.top && y < other.box.bottom,
      );
      if (onIt) bad.push(`the leader of ${says} through ${other.says}`);
    }
    if (kind !== "bar") return;
    for (const [u, v] of [
      [0, 0],
      [1, 0],
      [0, 1],
      [1, 1],
      [0.5, 0.5],
    ] as const) {
      // what is pointed at is taken from 6 pixels beside it on
      const id = viewer.barAt(box.left + 6 + u * (box.width - 12), box.top + 6 + v * (box.height - 12));
      if (id !== null && labelOf(id) === says) bad.push(`${says} on itself`);
    }
  });
  return { shown: all.map(({ says }) => says), bad };
}
/** Copies of a bar have their number behind its ID and its name. */
const labelOf = (id: string): string => {
  const [bar = "", copy] = id.split(" ");
  return [plan.byId.get(bar)?.bar.label, ...(copy === undefined ? [] : [copy])].join(" ");
};

/** Places along a leader, which begins at its element's own corner. */
function lineOf(leader: HTMLElement): readonly { readonly x: number; readonly y: number }[] {
  const { a, b, e, f } = new DOMMatrix(getComputedStyle(leader.parentElement!).transform).multiply(
    new DOMMatrix(getComputedStyle(leader).transform),
  );
  const length = leader.offsetWidth;
  return Array.from({ length: 12 }, (_, k) => {
    const t = (length * k) / 12;
    return { x: e + t * a, y: f + t * b };
  });
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
    drawnInPart,
    many,
    turning,
    settle,
    seen,
    along,
    names: shownNames,
    marks: (id: string) => endsOf(meshes.get(plan.byId.get(id)!)!),
    corners: (id: string) => about(plan.byId.get(id)!).corners,
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
  readonly drawnInPart: typeof drawnInPart;
  readonly many: typeof many;
  readonly turning: typeof turning;
  readonly settle: typeof settle;
  readonly seen: typeof seen;
  readonly along: typeof along;
  readonly names: typeof shownNames;
  readonly marks: (id: string) => readonly Vec[];
  readonly corners: (id: string) => readonly { readonly n: number; readonly corner: Vec }[];
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
