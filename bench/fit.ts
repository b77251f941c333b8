import { execFileSync } from "node:child_process";
import { readFileSync } from "node:fs";
import init from "manifold-3d";
import { judgeInThreads } from "../src/cli/fit-threads.ts";
import { inSeconds, unitsOf } from "../src/cli/fit-units.ts";
import { type Fitting, findOrder, newMemory } from "../src/core/fit/index.ts";
import { contactsOf, mobilityOf } from "../src/core/fit/joint/index.ts";
import { checker, type Pose, solidOf, standing, unitQuat } from "../src/core/fit/scene/index.ts";
import { readJob } from "../src/core/job/index.ts";
import { normal, seeded } from "../src/core/numeric/index.ts";
import { fittingOf, planJob } from "../src/core/plan/index.ts";
import { judgeOrder } from "../tests/support/fit.ts";
import { consume, inTurn, median, type Row } from "./measure.ts";

function demo(): Fitting {
  const read = readJob(readFileSync("demo/sandling.json", "utf8"));
  if (!read.ok) throw new Error("the demo job does not pass");
  return { ...fittingOf(planJob(read.job)), effort: { seed: 1, nodes: 3000, most: 5, stop: () => false } };
}

/** Joints of all bars; poses checked per second, and against the mesh kernel's collision test for the same poses. */
export async function fitRows(): Promise<Row[]> {
  const fitting = demo();
  const joints = fitting.bars.map((b) => (): number => {
    const { slides, tips } = mobilityOf(b.bar, contactsOf(b.bar, b.copes, b.hosts));
    return slides.length + tips.length;
  });
  const [cold] = inTurn(joints.slice(0, 1), 1, 0);
  // All bars in turn, so that none is timed before the code has met the shapes of the others.
  const mobility = inTurn(joints, 15, 10);
  const [ours, theirs] = await posesPerSecond(fitting);
  return [
    { what: "mobility of a bar at its joints, median of the demo's 36", value: median(mobility), unit: "ms" },
    {
      what: "the slowest of them: median of its runs",
      value: Math.max(...mobility),
      unit: "ms",
      promise: { atMost: 5 },
    },
    { what: "the very first asked for, nothing warmed up", value: cold!, unit: "ms" },
    { what: "poses of a bar checked against 35 others", value: ours, unit: "/s" },
    {
      what: "that many times the mesh kernel's collision test",
      value: ours / theirs,
      unit: "×",
      promise: { atLeast: 1 },
    },
  ];
}

/** Whole orders: the job's own, judged step by step in two threads and in one, and again from memory; one found. */
export async function orderRows(): Promise<Row[]> {
  execFileSync("node", ["tools/build.mjs"]);
  const read = readJob(readFileSync("demo/sandling.json", "utf8"));
  if (!read.ok) throw new Error("the demo job does not pass");
  const fitting = { ...demo(), memory: newMemory() };
  const order = fitting.bars.map((b) => b.bar.id);
  const seconds = async (what: () => unknown): Promise<number> => {
    const start = performance.now();
    await what();
    return (performance.now() - start) / 1000;
  };
  const use = (bars: readonly { way: readonly unknown[] }[]): void => {
    for (const b of bars) consume(b.way.length);
  };
  const call = { job: read.job, order, seed: 1, over: 0, until: inSeconds(600) };
  const entry = new URL("../dist/fit-worker.mjs", import.meta.url);
  const units = unitsOf(fitting, order, order);
  const two = await seconds(() => judgeInThreads(entry, 2, call, units, (j) => use([j])));
  const one = await seconds(() => use(judgeOrder(fitting, order)));
  const moved = [...order.slice(0, 20), order[25]!, ...order.slice(20, 25), ...order.slice(26)];
  const again = await seconds(() => use(judgeOrder(fitting, moved)));
  const sought = await seconds(() => use(findOrder(demo()).bars));
  return [
    {
      what: "the demo's order, 36 bars judged, two threads",
      value: two,
      unit: "s",
      promise: { atMost: 20 },
    },
    { what: "the same, one thread", value: one, unit: "s", promise: { atMost: 40 } },
    { what: "the same again with one tag moved, from memory", value: again, unit: "s" },
    { what: "an order found, one thread", value: sought, unit: "s", promise: { atMost: 120 } },
  ];
}

/** Poses a second, ours and Manifold's, of the dash bar about its seat. */
async function posesPerSecond(fitting: Fitting): Promise<[number, number]> {
  const own = fitting.bars.find((b) => b.bar.id === "dash-bar")!;
  const others = fitting.bars.filter((b) => b !== own);
  const random = seeded(3);
  const poses = Array.from(
    { length: 400 },
    (): Pose => ({
      at: [normal(random) * 150, normal(random) * 150, normal(random) * 150],
      turn: unitQuat([normal(random) * 0.2, normal(random) * 0.2, normal(random) * 0.2, 1]),
    }),
  );
  const check = checker(solidOf(own.bar, own.copes), { obstacles: others.map((b) => standing(b.bar)) });
  const wasm = await init();
  wasm.setup();
  const { Manifold } = wasm;
  const segment = (a: readonly number[], b: readonly number[], r: number) => {
    const d = b.map((v, k) => v - a[k]!);
    const length = Math.hypot(...d);
    const tilt = (Math.acos(d[2]! / length) * 180) / Math.PI;
    const round = (Math.atan2(d[1]!, d[0]!) * 180) / Math.PI;
    return Manifold.cylinder(length, r, r, 32)
      .rotate([0, tilt, round])
      .translate(a as [number, number, number]);
  };
  const tubes = others.map((b) => {
    const { centreline, tube } = b.bar;
    const corners = [centreline.start, ...centreline.bends.map((k) => k.corner), centreline.finish];
    return Manifold.union(corners.slice(1).map((c, i) => segment(corners[i]!, c, tube.od / 2)));
  });
  const frame = Manifold.union(tubes);
  frame.numTri();
  const { start, finish } = own.bar.centreline;
  const bar = segment(start, finish, own.bar.tube.od / 2);
  const mesh = (pose: Pose): number => {
    const [x, y, z, w] = pose.turn;
    const c = [
      [1 - 2 * (y * y + z * z), 2 * (x * y + z * w), 2 * (x * z - y * w)],
      [2 * (x * y - z * w), 1 - 2 * (x * x + z * z), 2 * (y * z + x * w)],
      [2 * (x * z + y * w), 2 * (y * z - x * w), 1 - 2 * (x * x + y * y)],
    ];
    const shift = [0, 1, 2].map(
      (i) => start[i]! + pose.at[i]! - c.reduce((sum, col, k) => sum + col[i]! * start[k]!, 0),
    );
    const moved = bar.transform([...c.flatMap((col) => [...col, 0]), ...shift, 1] as Parameters<
      typeof bar.transform
    >[0]);
    const both = moved.intersect(frame);
    const volume = both.volume();
    moved.delete();
    both.delete();
    return volume;
  };
  let next = 0;
  const some = (n: number, of: (pose: Pose) => number) => (): number => {
    let sum = 0;
    for (let k = 0; k < n; k++) sum += of(poses[next++ % poses.length]!);
    return sum;
  };
  const [mine, kernel] = inTurn([some(400, (p) => check(p).least), some(40, mesh)], 5, 2);
  return [400 / (mine! / 1000), 40 / (kernel! / 1000)];
}
