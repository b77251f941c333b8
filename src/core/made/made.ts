import { type Centreline, centrelineOf, closestTo, placeAt } from "../bar/index.ts";
import {
  copeOf,
  cutLines,
  type EndAxes,
  endAxes,
  endPath,
  LINES,
  type SawCut,
  wallAt,
} from "../cope/index.ts";
import type { BentTo, CutHost, CutTo, MadeTo, NotchedTo } from "../job/made-types.ts";
import type { Die, End, Tube } from "../job/types.ts";
import type { ResolvedBar, Seat } from "../layout/types.ts";
import { rad, sinCosDeg } from "../numeric/index.ts";
import { add, cross, dot, neg, rejection, scale, sub, unit, type Vec } from "../space/index.ts";
import { type BarShape, lineOf, startOf } from "../trestles/index.ts";
import { sizeOf } from "../tube/index.ts";
import { bentAt } from "./bent-at.ts";
import { leastTurn } from "./pose.ts";
import type { MadeBar, MadeStep, Rim } from "./types.ts";

const ENDS = ["A", "B"] as const;

/** What is known now of the die that a bar was bent on, and what comes of an angle set on it (radians). */
export interface DieNow extends Pick<Die, "clr" | "mark" | "arcFactor"> {
  readonly got: (set: number) => number;
}

/** The shape that marks and settings really gave, ends as sawn (mm, radians). Without bends: one straight. */
export function shapeMade(sawn: number, bent: BentTo | undefined, die: DieNow | undefined): BarShape {
  if (!bent || !die || bent.bends.length === 0)
    return { straights: [sawn], angles: [], turns: [], radii: [], numbers: [] };
  const made = {
    marks: bent.bends.map((b) => b.mark),
    angles: bent.bends.map((b) => (b.set === undefined ? rad(b.angle) : die.got(rad(b.set)))),
    turns: bent.bends.map((b) => rad(b.turn)),
    numbers: bent.bends.map((b) => b.n),
  };
  return bentAt(sawn, bent.fed, made, die);
}

/**
 * A bar that exists, from what it was made to and the shape that it is known to have (ends as sawn).
 *
 * Convention: an end keeps its notch from the zero line and the sawn end, where both are on the tube: where the shape
 * is another than the one it was notched to, the notch goes with the tube. Units: mm, radians.
 * Range: undefined without what it was sawn to.
 */
export function madeBar(
  id: string,
  step: MadeStep,
  { sawn, notched = {} }: MadeTo,
  shape: BarShape,
): MadeBar | undefined {
  if (!sawn) return undefined;
  const over = { A: notched.A?.over ?? 0, B: notched.B?.over ?? 0 };
  const run = lengthened(shape, -over.A, -over.B);
  const line = lineWhere(run, notched.A ? "A" : "B", notched.A ?? notched.B);
  const frames = framesOf(line, notched);
  const rims: Partial<Record<End, Rim>> = {};
  for (const end of ENDS) {
    const cut = notched[end];
    if (cut) rims[end] = rimOf(sawn.tube, lineWhere(run, end, cut), end, cut);
  }
  return { id, step, tube: sawn.tube, sawn: sawn.length, shape, over, line, frames, rims };
}

/** The centreline with one end where it was to be when it was notched; anywhere where no end was. */
function lineWhere(run: BarShape, end: End, at: NotchedTo | undefined): Centreline {
  const base = lineOf(run, { at: [0, 0, 0], dir: [1, 0, 0], inside: [0, 1, 0] });
  if (!at) return base;
  const to = frameKept(at);
  if (base.bends.length === 0) {
    const dir = end === "A" ? neg(to.out) : to.out;
    const start = end === "A" ? to.landing : add(to.landing, scale(dir, -base.length));
    return lineOf(run, { at: start, dir, inside: to.zero });
  }
  const from = endAxes(base, end);
  const { at: p, dir, inside } = startOf(base);
  const turned = (v: Vec): Vec => inCar(to, [dot(v, from.zero), dot(v, from.quarter), dot(v, from.out)]);
  return lineOf(run, {
    at: add(to.landing, turned(sub(p, from.landing))),
    dir: turned(dir),
    inside: turned(inside),
  });
}

/** A direction in an end's frame as one in the car. */
const inCar = ({ zero, quarter, out }: EndAxes, [x, y, z]: Vec): Vec =>
  add(add(scale(zero, x), scale(quarter, y)), scale(out, z));

function frameKept({ landing, out: given, zero: said }: NotchedTo): EndAxes {
  const out = unit(given);
  const zero = unit(rejection(said, out));
  return { landing, out, zero, quarter: cross(out, zero), zeroLine: "" };
}

/**
 * A straight bar has no bend to carry its zero line: it keeps the one that it was notched from, turned as its end was
 * where the plan has turned since the other end was notched.
 */
function framesOf(line: Centreline, notched: NonNullable<MadeTo["notched"]>): Record<End, EndAxes> {
  const kept = notched.A ?? notched.B;
  const at = (end: End): EndAxes => {
    const found = endAxes(line, end);
    if (line.bends.length > 0 || !kept) return found;
    const own = notched[end];
    const said = own ? leastTurn(unit(own.out), found.out)(own.zero) : kept.zero;
    const zero = unit(rejection(said, found.out));
    return { ...found, zero, quarter: cross(found.out, zero) };
  };
  return { A: at("A"), B: at("B") };
}

/** The same shape with so much more tube at its ends (mm). */
export function lengthened(shape: BarShape, a: number, b: number): BarShape {
  const last = shape.straights.length - 1;
  return {
    ...shape,
    straights: shape.straights.map((s, i) => s + (i === 0 ? a : 0) + (i === last ? b : 0)),
  };
}

/** The edge of an end as it was cut, in the end's frame, from the figures of its cut. */
function rimOf(tube: MadeTube, line: Centreline, end: End, cut: NotchedTo): Rim {
  const frame = { ...frameKept(cut), landing: end === "A" ? line.start : line.finish };
  const path = endPath(line, end, frame);
  const { od, wall: thick } = sizeOf(tube);
  const radii = { outer: od / 2, bore: od / 2 - thick };
  const backs = cut.by === "hole saw" ? sawBacks(cut.cuts) : copeBacks(tube, line, end, cut);
  const places = (rho: number, wall: keyof typeof radii): (Vec | undefined)[] =>
    Array.from({ length: LINES }, (_, i) => {
      const [sin, cos] = sinCosDeg(i);
      const back = backs(rho, cos, sin, i, wall);
      return Number.isNaN(back) ? undefined : wallAt(path, rho * cos, rho * sin, back);
    });
  return { outer: places(radii.outer, "outer"), bore: places(radii.bore, "bore") };
}

type MadeTube = Pick<Tube, "od" | "wall" | "material">;
type Backs = (rho: number, cos: number, sin: number, i: number, wall: "outer" | "bore") => number;

const sawCut = ({ diameter, angle, clock, centre, offset }: CutTo): SawCut => ({
  radius: diameter / 2,
  notch: rad(angle),
  clock: rad(clock),
  offset,
  centre,
});

/** Several cuts leave what the deepest of them leaves. */
function sawBacks(cuts: readonly CutTo[]): Backs {
  const lines = cuts.map((c) => cutLines(sawCut(c)));
  return (rho, cos, sin) =>
    lines.reduce((most, at) => {
      const back = at(rho, cos, sin);
      return Number.isNaN(back) || back < most ? most : back;
    }, Number.NaN);
}

/** The curve that the bars or the plate give that it was cut to. */
function copeBacks(
  tube: MadeTube,
  line: Centreline,
  end: End,
  cut: Exclude<NotchedTo, { by: "hole saw" }>,
): Backs {
  const hosts = cut.by === "wrap" ? hostsKept(cut.bars) : [];
  const on = cut.by === "wrap" ? hosts.filter((h) => Number(h.id) < cut.on) : [];
  const place = end === "A" ? line.start : line.finish;
  const seat: Seat =
    cut.by === "wrap"
      ? seatOn(on, place)
      : cut.plate
        ? { kind: "plate", plate: "", ...cut.plate, normal: unit(cut.plate.normal) }
        : { kind: "square" };
  const other: Seat = { kind: "square" };
  const bar = barOf("", tube, line, { A: end === "A" ? seat : other, B: end === "B" ? seat : other });
  const { cope, joint } = copeOf(bar, end, on, (id) => hosts.find((h) => h.id === id));
  const { zero, out } = cope;
  const kept = frameKept(cut);
  // Its zero line is the one it is known by, which near plumb may not be the one that it would be given here.
  const [c, s] = [dot(kept.zero, zero), dot(kept.zero, cross(out, zero))];
  const isSame = Math.abs(s) < 1e-6 && c > 0;
  const lines = { outer: cope.outer, bore: cope.bore };
  return (rho, cos, sin, i, wall) =>
    isSame || !joint ? (lines[wall][i] ?? Number.NaN) : joint.back(rho, cos * c - sin * s, sin * c + cos * s);
}

const barOf = (
  id: string,
  tube: MadeTube,
  centreline: Centreline,
  seat: ResolvedBar["seat"],
): ResolvedBar => ({
  id,
  label: "",
  tubeId: "",
  tube,
  centreline,
  seat,
  trim: { A: 0, B: 0 },
  fromEnd: "A",
  dependsOn: [],
});

function seatOn(hosts: readonly ResolvedBar[], place: Vec): Seat {
  const [host] = hosts;
  if (!host) return { kind: "square" };
  const { s } = closestTo(host.centreline, place);
  const off = sub(place, placeAt(host.centreline, s).at);
  return { kind: "on", hosts: hosts.map((h) => h.id), along: s, off };
}

/** The bars that a wrap was figured from, where they were then; named by their place in the list. */
function hostsKept(bars: readonly CutHost[]): readonly ResolvedBar[] {
  const square: ResolvedBar["seat"] = { A: { kind: "square" }, B: { kind: "square" } };
  const plain = bars.flatMap(({ od, clr, path }, i): ResolvedBar[] => {
    const line = centrelineOf(path, clr, { bar: String(i), place: "" }, 0);
    return line.ok ? [barOf(String(i), { od, wall: od / 4 }, line.centreline, square)] : [];
  });
  return plain.map((host) => {
    const seat = (end: End): Seat => {
      const said = bars[Number(host.id)]?.[end];
      if (!said) return square[end];
      if ("plate" in said)
        return { kind: "plate", plate: "", ...said.plate, normal: unit(said.plate.normal) };
      const on = said.on.flatMap((k) => plain.filter((h) => h.id === String(k)));
      return seatOn(on, end === "A" ? host.centreline.start : host.centreline.finish);
    };
    return { ...host, seat: { A: seat("A"), B: seat("B") } };
  });
}
