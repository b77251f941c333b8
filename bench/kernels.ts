import { readFileSync } from "node:fs";
import { copeOf } from "../src/core/cope/index.ts";
import type { End } from "../src/core/job/index.ts";
import type { Vec } from "../src/core/space/index.ts";
import { cutPoints, type JointCase, jointCase, laidOut, solidsOf } from "../tests/outside/solids/joints.ts";
import {
  type ExactKernel,
  exactKernel,
  type Kernel,
  type MeshKernel,
  meshKernel,
} from "../tests/outside/solids/kernels.ts";
import { inWall, wallPlace } from "../tests/outside/solids/ours.ts";
import { inTurn, type Row } from "./measure.ts";

/**
 * One cope on a bent host: by us (both walls at 360 lines, the long point, the arcs that miss), by an exact solid kernel
 * and by a mesh kernel (the tube less its host). Both are general-purpose and not ours; see tests/outside/solids.
 * In the kernels' favour their tube and host are made beforehand, no curve is read out of what they leave, and the mesh
 * is judged at its corners alone, not on the chords between them.
 */
const JOINTS: readonly (readonly [string, End])[] = [
  ["hoop-diagonal-upper-half", "A"],
  ["roof-cross-through-bar", "A"],
];
/** Landings of each joint, so many and so far apart along the host (mm). */
const PLACES = 4;
const APART = 1.7;
/** Segments of the mesh kernel's circles, coarsest first. */
const SEGMENTS = [8, 16, 32, 64, 128];

/** The exact kernel holds its edges to this: departures below it are not ours to tell (mm). */
const EDGES = 1e-7;

/** Copes of ours in one turn: one alone is too short to time beside the others (the row is for one). */
const COPES = 10;
/** A mesh is of use from where its cut is off by no more than the gap that the demo's shop accepts (mm). */
const USABLE = 1;

type Landing = { along: number };

function places(id: string, end: End): JointCase[] {
  return Array.from({ length: PLACES }, (_, i) => {
    const doc = JSON.parse(readFileSync("demo/sandling.json", "utf8")) as {
      bars: Record<string, { path: Landing[] }>;
    };
    doc.bars[id]!.path[0]!.along += APART * i;
    return jointCase(laidOut(JSON.stringify(doc)), id, end);
  });
}

/** Runs through a list for ever. */
function cycle<T>(list: readonly T[]): () => T {
  let k = 0;
  return () => list[k++ % list.length]!;
}

/** One subtraction a call, the solids made beforehand. What a kernel does outside JavaScript is never dropped as unused. */
function subtraction<Solid>(kernel: Kernel<Solid>, cases: readonly JointCase[]): () => number {
  const next = cycle(cases.map((c) => solidsOf(kernel, c)));
  return () => {
    const { tube, hosts } = next();
    kernel.free(kernel.subtract(tube, hosts));
    return 1;
  };
}

/** Greatest distance (mm) of places from the edges that the exact kernel cuts on a joint. */
function departure(exact: ExactKernel, c: JointCase): (places: readonly Vec[]) => number {
  const { tube, hosts } = solidsOf(exact, c);
  const edges = exact.cutEdges(exact.cut(tube, hosts, c.keep), hosts);
  return (places) => Math.max(...places.map((place) => exact.distance(place, edges)));
}

const ourPlaces = (c: JointCase): Vec[] =>
  cutPoints(c).map(({ rho, phi, back }) => wallPlace(c, rho, phi, back));

/** The corners of the mesh kernel's cut that lie on the outside or at the bore. */
function meshPlaces(mesh: MeshKernel, c: JointCase): Vec[] {
  const { tube, hosts } = solidsOf(mesh, c);
  const corners = mesh.cutCorners(mesh.cut(tube, hosts, c.keep), tube);
  return corners.filter((corner) => {
    const { rho } = inWall(c, corner);
    return [c.cope.outerRadius, c.cope.boreRadius].some((r) => Math.abs(rho - r) < 1e-3);
  });
}

async function rowsOf(exact: ExactKernel, id: string, end: End): Promise<Row[]> {
  const cases = places(id, end);
  const first = cases[0]!;
  const meshes = await Promise.all(SEGMENTS.map((n) => meshKernel(n, first.cope.landing)));
  const next = cycle(cases);
  const ours = (): number => {
    let sum = 0;
    for (let i = 0; i < COPES; i++) {
      const { bar, hosts } = next();
      sum += copeOf(bar, end, hosts).cope.least;
    }
    return sum;
  };
  const ways = [ours, subtraction(exact, cases), ...meshes.map((mesh) => subtraction(mesh, cases))];
  const [batch, whole, ...meshed] = inTurn(ways, 12, 4) as [number, number, ...number[]];
  const own = batch / COPES;
  const off = departure(exact, first);
  const ownError = Math.max(EDGES, off(ourPlaces(first)));
  const errors = meshes.map((mesh) => off(meshPlaces(mesh, first)));
  const mesh = (k: number): Row[] => {
    const what = `${id}, mesh kernel, ${SEGMENTS[k]} segments`;
    const promise = { atLeast: 1 };
    return [
      { what: `${what}: time against ours`, value: meshed[k]! / own, unit: "×" },
      { what: `${what}: off by`, value: 1000 * errors[k]!, unit: "µm" },
      { what: `${what}: error against ours`, value: errors[k]! / ownError, unit: "×", promise },
    ];
  };
  // At equal time the finest mesh that takes no longer than we do, or else the coarsest; then the coarsest of use.
  const equal = Math.max(
    0,
    meshed.findLastIndex((time) => time <= own),
  );
  const usable = errors.findIndex((error) => error <= USABLE);
  const levels = new Set([equal, usable, SEGMENTS.length - 1].filter((k) => k >= 0));
  const within = { atMost: 10 };
  return [
    { what: `${id}, ours: one cope on a bent host`, value: own, unit: "ms" },
    { what: `${id}, ours: off by`, value: 1000 * ownError, unit: "µm", promise: within },
    {
      what: `${id}, exact kernel: time against ours`,
      value: whole / own,
      unit: "×",
      promise: { atLeast: 100 },
    },
    ...[...levels].flatMap(mesh),
  ];
}

/** The rows of the bench that compare us with the two solid kernels. */
export async function kernelRows(): Promise<Row[]> {
  const exact = await exactKernel();
  const rows: Row[] = [];
  for (const [id, end] of JOINTS) rows.push(...(await rowsOf(exact, id, end)));
  return rows;
}
