// Not by the room's index, which brings the PDF writer along: the page draws this too.

import { type DieCard, type Measured, springsAt } from "../core/bend/index.ts";
import type { Die } from "../core/job/index.ts";
import { circle, line, polygon, rectangle, text } from "../draw/build.ts";
import type { Mark, Placed, Point } from "../draw/types.ts";
import { DIE_PLOT as SAYS } from "../words/index.ts";

/** Widest step between two figures of an axis (degrees). */
const STEP = 30;
const ROOM = { left: 13, right: 6, top: 5, between: 11, below: 2, off: 17 };
/** Radius of a test bend's mark (mm). */
const DOT = 1.1;

/**
 * Set against got of a die's test bends, with the line of its springback and what it may be off by (one standard
 * deviation, grey), and below how far each test bend is off that line, much larger. Degrees; from 0 to beyond the
 * widest test bend.
 */
export function diePlot(die: Pick<Die, "tests" | "springback">, card: DieCard, width: number): Placed {
  const most = STEP * Math.ceil((Math.max(60, ...die.tests.flatMap((t) => [t.set, t.got])) + 10) / STEP);
  const box = { x: ROOM.left, y: ROOM.top, width: width - ROOM.left - ROOM.right, height: 0 };
  box.height = Math.min(box.width * 0.5, 78);
  const x = (set: number): number => box.x + (set / most) * box.width;
  const y = (got: number): number => box.y + box.height - (got / most) * box.height;
  const at = (set: number): number => springsAt(die, card, set)?.value ?? set;
  const knows = springsAt(die, card, 0) !== undefined;
  const marks: Mark[] = [
    ...(knows
      ? band(
          (set) => springsAt(die, card, set),
          most,
          x,
          (got) => y(Math.min(most, Math.max(0, got))),
        )
      : []),
    rectangle(box, "narrow"),
    ...ticks(most).flatMap((deg): Mark[] => [
      line([x(deg), box.y + box.height], [x(deg), box.y + box.height + 1.5], "narrow"),
      text([x(deg), box.y + box.height + 4.4], `${deg}°`, 2, { anchor: "middle" }),
      line([box.x - 1.5, y(deg)], [box.x, y(deg)], "narrow"),
      text([box.x - 2.2, y(deg) + 0.7], `${deg}°`, 2, { anchor: "end" }),
    ]),
    line([x(0), y(0)], [x(most), y(most)], "construction"),
    ...(knows ? [line(inside(at, most, x, y, 0), inside(at, most, x, y, most), "visible")] : []),
    text([box.x, box.y - 1.6], SAYS.got, 2.2),
    text([box.x + box.width, box.y + box.height + 8], SAYS.set, 2.2, { anchor: "end" }),
  ];
  die.tests.forEach(({ set, got }, i) => {
    marks.push(circle([x(set), y(got)], DOT, "visible", "paper"));
    marks.push(text([x(set) + 2.2, y(got) + 2.6], SAYS.test(i + 1), 2.2));
  });
  const below = box.y + box.height + ROOM.between;
  if (!knows || die.tests.length === 0) return { marks, height: below };
  const off = die.tests.map(({ set, got }) => got - at(set));
  const strip = { x: box.x, y: below, width: box.width, height: ROOM.off };
  marks.push(
    ...offLine(
      die.tests.map((t, i) => [t.set, off[i] ?? 0]),
      (set) => springsAt(die, card, set)?.sd ?? 0,
      most,
      strip,
      x,
    ),
  );
  return { marks, height: strip.y + strip.height + ROOM.below };
}

const ticks = (most: number): readonly number[] =>
  Array.from({ length: most / STEP + 1 }, (_, i) => i * STEP);

/** The line's end at a setting, or where it leaves the plot through its floor or lid. */
function inside(
  at: (set: number) => number,
  most: number,
  x: (set: number) => number,
  y: (got: number) => number,
  end: number,
): Point {
  const got = at(end);
  const held = Math.min(most, Math.max(0, got));
  const slope = (at(most) - at(0)) / most;
  const set = held === got || slope === 0 ? end : end + (held - got) / slope;
  return [x(Math.min(most, Math.max(0, set))), y(held)];
}

type Axis = (value: number) => number;

/** One standard deviation of the line either side of it. */
function band(of: (set: number) => Measured | undefined, most: number, x: Axis, y: Axis): Mark[] {
  const places = Array.from({ length: 37 }, (_, i) => (i * most) / 36);
  const edge = (way: 1 | -1): Point[] =>
    places.flatMap((set): Point[] => {
      const found = of(set);
      return found ? [[x(set), y(found.value + way * found.sd)]] : [];
    });
  return [polygon([...edge(1), ...edge(-1).reverse()], undefined, "shade")];
}

/** How far each test bend is off the line, on a scale of its own, with what the line may be off. */
function offLine(
  tests: readonly (readonly [set: number, off: number])[],
  sdAt: (set: number) => number,
  most: number,
  box: { readonly x: number; readonly y: number; readonly width: number; readonly height: number },
  x: Axis,
): Mark[] {
  const widest = Math.max(...tests.map(([, off]) => Math.abs(off)), sdAt(0), sdAt(most));
  const scale = [0.5, 1, 2, 5, 10, 20, 50].find((s) => widest <= s) ?? Math.ceil(widest / 10) * 10;
  const middle = box.y + box.height / 2;
  const y = (off: number): number => middle - (off / scale) * (box.height / 2 - 1.5);
  return [
    text([box.x, box.y - 1.6], SAYS.off, 2.2),
    ...band((set) => ({ value: 0, sd: sdAt(set) }), most, x, y),
    rectangle(box, "narrow"),
    line([box.x, middle], [box.x + box.width, middle], "visible"),
    ...[scale, 0, -scale].map((deg) =>
      text([box.x - 2.2, y(deg) + 0.7], `${deg > 0 ? "+" : deg < 0 ? "−" : ""}${Math.abs(deg)}°`, 2, {
        anchor: "end",
      }),
    ),
    ...tests.flatMap(([set, off], i): Mark[] => [
      line([x(set), middle], [x(set), y(off)], "narrow"),
      circle([x(set), y(off)], DOT, "visible", "paper"),
      text([x(set) + 2.2, y(off) + (off > 0 ? -1 : 2.6)], SAYS.test(i + 1), 2.2),
    ]),
  ];
}
