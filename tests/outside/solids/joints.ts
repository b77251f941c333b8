import { readFileSync } from "node:fs";
import { closestTo, placeAt } from "../../../src/core/bar/index.ts";
import { type Cope, copeOf, type Joint } from "../../../src/core/cope/index.ts";
import { includedAngle } from "../../../src/core/cope/joint.ts";
import { type End, readJob } from "../../../src/core/job/index.ts";
import { type Layout, layOut, type ResolvedBar } from "../../../src/core/layout/index.ts";
import { along, anyPerpendicular, type Vec } from "../../../src/core/space/index.ts";
import { problemLine } from "../../../src/words/index.ts";

import type { Kernel, Run } from "./kernels.ts";

/** One end of a bar, with the stub of it that the kernels are to cut. */
export interface JointCase {
  readonly name: string;
  readonly bar: ResolvedBar;
  readonly end: End;
  readonly hosts: readonly ResolvedBar[];
  readonly cope: Cope;
  readonly joint: Joint;
  /** The stub runs from back `far`, inside the bar, to back `near` (mm; negative: beyond the landing). */
  readonly far: number;
  readonly near: number;
  /** The same as stations of the bar. */
  readonly run: Run;
  /** The part of each host that the stub can reach, and more, as stations of the host. */
  readonly hostRuns: readonly Run[];
  /** A place in the wall at the far end: the piece that holds it is the bar. */
  readonly keep: Vec;
}

/** Metal kept between the short point and the stub's far end (mm). */
const BEHIND = 30;
/** How far a stub goes on beyond the last place where a wall line could meet its host (mm). */
const BEYOND = 10;
/** How far short of its landing the stub of a bar of the host's own diameter ends (mm). */
const SHORT = 0.05;

/**
 * A tube as thick as its host, the centrelines meeting, touches it in two points level with the landing: there what is
 * kept and the slug beyond the host would hang together by a point, which neither kernel cuts reliably. All that is
 * kept lies on the bar's side of the landing (b = H(|cos φ| + cos φ cos γ)/ sin γ ≥ 0, geometry.md), all of the slug
 * beyond it; so such a stub ends 0.05 mm short of the landing and the two never meet. `meanLength` ends there too.
 */
function pinches(bar: ResolvedBar, end: End, hosts: readonly ResolvedBar[]): boolean {
  const seat = bar.seat[end];
  return seat.kind === "on" && hosts[0]!.tube.od === bar.tube.od && seat.off.every((x) => x === 0);
}

export function jointCase(layout: Layout, id: string, end: End): JointCase {
  const bar = layout.byId.get(id)!;
  const seat = bar.seat[end];
  const hosts = seat.kind === "on" ? seat.hosts.map((h) => layout.byId.get(h)!) : [];
  const { cope, joint } = copeOf(bar, end, hosts);
  if (!joint) throw new Error(`${id} ${end} is a square end`);
  const reaches = joint.hosts.map((h) => (h.radius + bar.tube.od / 2) / Math.sin(includedAngle(h.dir)));
  const near = pinches(bar, end, hosts) ? SHORT : -Math.max(cope.greatest, ...reaches) - BEYOND;
  const far = Math.ceil(cope.greatest) + BEHIND;
  const line = bar.centreline;
  if (far > line.length / 2) throw new Error(`${id} ${end}: the bar is too short for a stub`);
  const run = end === "A" ? { from: near, to: far } : { from: line.length - far, to: line.length - near };
  const { at, dir } = placeAt(line, end === "A" ? far : line.length - far);
  const keep = along(at, anyPerpendicular(dir), (bar.tube.od - bar.tube.wall) / 2);
  // The stub lies in a ball about the landing; a host leaves it within its width, save in a hairpin.
  const ball = Math.max(far, -near) + bar.tube.od;
  const hostRuns = hosts.map(({ centreline, tube }, i): Run => {
    const { s } = closestTo(centreline, cope.landing);
    const run = { from: s - ball - tube.od, to: s + ball + tube.od };
    // An `also` host ends where it lands: thinner than what it lands on, its end there is within that.
    return i === 0 ? run : { from: Math.max(0, run.from), to: Math.min(centreline.length, run.to) };
  });
  for (const host of hosts.slice(1))
    if (host.tube.od >= hosts[0]!.tube.od) throw new Error(`${host.id} is thick`);
  const name = `${id} ${end} onto ${cope.onto.join(" and ")}`;
  return { name, bar, end, hosts, cope, joint, far, near, run, hostRuns, keep };
}

/** The stub and what it is coped to, as a kernel's solids. */
export function solidsOf<Solid>(kernel: Kernel<Solid>, c: JointCase): { tube: Solid; hosts: Solid[] } {
  const { bar, end, cope } = c;
  const seat = bar.seat[end];
  const hosts =
    seat.kind === "plate"
      ? [kernel.makePlate(seat.at, seat.normal)]
      : c.hosts.map((host, i) => kernel.makeHost(host.centreline, c.hostRuns[i]!, host.tube.od / 2));
  return { tube: kernel.makeTube(bar.centreline, c.run, cope.outerRadius, cope.boreRadius), hosts };
}

/** Every 15° of both curves of a cope. */
export const cutPoints = ({ cope }: JointCase): { rho: number; phi: number; back: number }[] =>
  [
    { rho: cope.outerRadius, curve: cope.outer },
    { rho: cope.boreRadius, curve: cope.bore },
  ].flatMap(({ rho, curve }) =>
    Array.from({ length: 24 }, (_, i) => ({ rho, phi: 15 * i, back: curve[15 * i]! })),
  );

export function laidOut(text: string): Layout {
  const read = readJob(text);
  if (!read.ok) throw new Error(read.problems.map(problemLine).join("\n"));
  return layOut(read.job);
}

/**
 * The demo job's landings on bars, and one on a leaning plate. Of landings that are the same joint over again (the two
 * ends of a symmetric bar, mirror images) one is kept: those of equal tubes and an equal short point.
 */
export function demoJoints(): JointCase[] {
  const layout = laidOut(readFileSync(new URL("../../../demo/sandling.json", import.meta.url), "utf8"));
  const cases = layout.bars.flatMap(({ bar }) =>
    (["A", "B"] as const)
      .filter((end) => bar?.seat[end].kind === "on" || (bar?.id === "rear-stay-left" && end === "B"))
      .map((end) => jointCase(layout, bar!.id, end)),
  );
  const joint = ({ bar, hosts, cope }: JointCase): string =>
    [bar.tubeId, ...hosts.map((h) => h.tubeId), cope.greatest.toFixed(4)].join(" ");
  return [...new Map(cases.map((c) => [joint(c), c])).values()];
}

/** A hoop, a bar on it, and bars that land in ways that the demo has none of. Invented. */
const UNUSUAL = {
  format: "tubewright job",
  version: 2,
  name: "Unusual landings",
  tubes: {
    t45: { od: 45, wall: 2.5 },
    t38: { od: 38, wall: 2.5 },
    t30: { od: 30, wall: 2 },
  },
  dies: { d45: { od: 45, clr: 135 }, d38: { od: 38, clr: 114 }, d30: { od: 30, clr: 70 } },
  bars: {
    // Straights to station 765, a bend to 977.06, a level straight, a bend from 1907.06, down again.
    hoop: {
      tube: "t45",
      die: "d45",
      path: [
        [0, 600, 0],
        [0, 600, 900],
        [0, -600, 900],
        [0, -600, 0],
      ],
    },
    cross: {
      tube: "t38",
      path: [
        { on: "hoop", z: 450, near: "left" },
        { on: "hoop", z: 450, near: "right" },
      ],
    },
    "off-straight": { tube: "t30", path: [{ on: "hoop", along: 400, off: [0, 5, 0] }, [-500, 640, 620]] },
    "off-bend": { tube: "t38", path: [{ on: "hoop", along: 850, off: [0, 2, -2.5] }, [-700, 560, 640]] },
    "crowded-straight": {
      tube: "t30",
      path: [{ on: "hoop", along: 460, also: ["cross"] }, [-420, 330, 640]],
    },
    "crowded-bend": { tube: "t38", path: [{ on: "hoop", along: 930, also: ["upward"] }, [-650, 300, 420]] },
    upward: { tube: "t30", path: [{ on: "hoop", along: 921 }, [-300, 700, 1150]] },
    slotted: { tube: "t38", path: [{ on: "hoop", along: 930, also: ["beside"] }, [-650, 300, 420]] },
    // Through, as it passes, and out beyond the hoop.
    beside: {
      tube: "t30",
      path: [
        [81.8, 625, 859.4],
        [-600, 150, 800],
      ],
    },
    "bent-on-straight": {
      tube: "t38",
      die: "d38",
      path: [{ on: "cross", along: 500 }, [-48, 93, 462], [-260, 60, 720]],
    },
    "bent-on-bend": {
      tube: "t38",
      die: "d38",
      path: [{ on: "hoop", along: 880 }, [-44, 552, 854], [-300, 500, 560]],
    },
    "bent-on-bend-from-b": {
      tube: "t38",
      die: "d38",
      path: [[-300, -480, 500], [-50, -580, 830], { on: "hoop", along: 2030 }],
    },
    "bent-crowded-off": {
      tube: "t30",
      die: "d30",
      path: [
        { on: "hoop", along: 1950, off: [0, 1.5, 2], also: ["outward"] },
        [-34, -500, 880],
        [-240, -420, 600],
      ],
    },
    outward: { tube: "t30", path: [{ on: "hoop", along: 1960 }, [-500, -800, 1000]] },
    "bend-at-the-landing": {
      tube: "t38",
      die: "d38",
      path: [{ on: "hoop", along: 1430 }, [-32, -54, 888], [-300, -100, 640]],
    },
    "part-missing": { tube: "t38", path: [{ on: "hoop", along: 300, off: [0, 9, 0] }, [-500, 660, 500]] },
    "part-missing-bend": {
      tube: "t38",
      path: [{ on: "hoop", along: 850, off: [0, 5, 7] }, [-500, 500, 900]],
    },
  },
};

/** Landings that miss nothing: eccentric, crowded, of bars bent inside the joint, onto straights and bends. */
const WHOLE = [
  ["off-straight", "A"],
  ["off-bend", "A"],
  ["crowded-straight", "A"],
  ["crowded-bend", "A"],
  ["bent-on-straight", "A"],
  ["bent-on-bend", "A"],
  ["bent-on-bend-from-b", "B"],
  ["bent-crowded-off", "A"],
  ["bend-at-the-landing", "A"],
] as const;

const unusual = (list: readonly (readonly [string, End])[]): JointCase[] => {
  const layout = laidOut(JSON.stringify(UNUSUAL));
  return list.map(([id, end]) => jointCase(layout, id, end));
};

export const unusualJoints = (): JointCase[] => unusual(WHOLE);

/** A landing that names a bar in `also` which crosses farther in, apart from the joint. */
export const slottedJoint = (): JointCase => unusual([["slotted", "A"]])[0]!;

/** Landings of which a part of the rim passes its host by. */
export const missingJoints = (): JointCase[] =>
  unusual([
    ["part-missing", "A"],
    ["part-missing-bend", "A"],
  ]);
