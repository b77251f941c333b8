import { printed } from "./figure.ts";
import type { Page, Stroke, Word } from "./read-pdf.ts";
import type { Drawn } from "./read-svg.ts";
import type { BarFacts, End, Second } from "./second/index.ts";
import { type Line, placeOn } from "./second/line.ts";
import { across, inner, minus, size, type V } from "./second/vec.ts";

/** Lines as drawn are true to this (mm): PDF writes hundredths of a point and less. */
const DRAWN = 0.03;
const SHADE = /^0\.87/;

export interface Seen {
  faults: string[];
  /** Words whose figures are read off their place on the sheet, not off a label. */
  held: Set<Word>;
  /** Figures read so. */
  read: string[];
}

const nothing = (): Seen => ({ faults: [], held: new Set(), read: [] });
const near = (a: number, b: number, by = DRAWN): boolean => Math.abs(a - b) <= by;
const box = (s: Stroke) => {
  const xs = s.points.map((p) => p[0]);
  const ys = s.points.map((p) => p[1]);
  return { x0: Math.min(...xs), x1: Math.max(...xs), y0: Math.min(...ys), y1: Math.max(...ys) };
};
const isRect = (s: Stroke): boolean => s.closed && !s.curved && s.points.length === 4;
const upright = (s: Stroke): boolean =>
  s.points.length === 2 && !s.curved && near(s.points[0]![0], s.points[1]![0], 1e-3);
const thick = (s: Stroke, width: number): boolean => s.stroked && near(s.width, width, 0.01);

/** The straight tube on the bender card: its reduction, measured; marks, shades, arrows and their words in place. */
export function markedTube(page: Page, f: BarFacts): Seen & { scale?: number } {
  const seen = nothing();
  const tube = page.strokes.find((s) => isRect(s) && thick(s, 0.5) && !s.filled);
  if (!tube) return seen;
  const { x0, x1, y0, y1 } = box(tube);
  const scale = f.sawn / (x1 - x0);
  const at = (x: number): number => (x - x0) * scale;
  const by = 0.05 * scale;
  const marks = f.order.map((n) => f.marks[f.lead].get(n)!);
  const compare = (what: string, read: number[], want: number[]): void => {
    seen.read.push(what);
    const [a, b] = [[...read].sort((p, q) => p - q), [...want].sort((p, q) => p - q)];
    if (a.length !== b.length || a.some((x, i) => !near(x, b[i]!, by)))
      seen.faults.push(
        `${what}: drawn at ${a.map((x) => x.toFixed(1))}, should be ${b.map((x) => x.toFixed(1))}`,
      );
  };
  const lines = page.strokes.filter(
    (s) => upright(s) && thick(s, 0.5) && near(box(s).y1, y1) && near(box(s).y0, y0 - 2),
  );
  compare(
    "marks on the straight tube",
    lines.map((s) => at(s.points[0]![0])),
    marks,
  );
  const factor = f.laid.die?.arcFactor ?? 1;
  const shades = page.strokes.filter(
    (s) => isRect(s) && SHADE.test(s.filled ?? "") && near(box(s).y0, y0) && near(box(s).y1, y1),
  );
  const starts = marks.map((m) => m - (f.laid.die?.mark ?? 0));
  compare(
    "start of the grey",
    shades.map((s) => at(box(s).x0)),
    starts,
  );
  compare(
    "end of the grey",
    shades.map((s) => at(box(s).x1)),
    f.order.map((n, i) => starts[i]! + factor * f.laid.line.bends[n - 1]!.part.length),
  );
  const tips = page.strokes.filter(
    (s) =>
      s.filled?.startsWith("0 0 0") &&
      s.points.length === 3 &&
      box(s).y0 > y1 &&
      near(box(s).x1 - box(s).x0, 2.4, 0.01) &&
      near(box(s).y1 - box(s).y0, 0.9, 0.01),
  );
  compare(
    "arrows below the tube",
    tips.map((s) => at(s.points[0]![0])),
    [...marks, f.sawn],
  );
  for (const tip of tips) {
    const [x, y] = tip.points[0]!;
    const row = page.words.filter((w) => w.y0 < y - 1 && w.y1 > y - 1);
    const unit = row.find(
      (w) => /^(mm|in)$/.test(w.text) && (near(w.x1, x - 3, 0.6) || (w.x0 > x && w.x0 < x + 22)),
    );
    if (!unit) continue;
    const i = page.words.indexOf(unit);
    const [one, two] = [page.words[i - 1]!, page.words[i - 2]];
    const whole =
      two &&
      /^\d+$/.test(two.text) &&
      near(two.y0, one.y0, 0.01) &&
      one.x0 - two.x1 < 2 &&
      one.text.includes("/");
    const said = `${whole ? `${two.text} ` : ""}${one.text} ${unit.text}`;
    const { value, half } = printed(said, f.job.fraction);
    if (!near(value, at(x), half + by))
      seen.faults.push(`${said} is written at the arrow for ${at(x).toFixed(1)} mm`);
  }
  return { ...seen, scale };
}

/** The finished bar on the bender card: its reduction, by the chord between its drawn ends. */
export function finishedBar(page: Page, f: BarFacts): number | undefined {
  const pieces = page.strokes.filter((s) => s.dashed > 5.9 && s.stroked && near(s.width, 0.25, 0.01));
  const line = f.laid.line;
  const count = line.parts.filter((p) => p.length > 1e-6).length;
  const same = (a: [number, number], b: [number, number]): boolean =>
    Math.hypot(a[0] - b[0], a[1] - b[1]) < 0.01;
  for (let i = 0; i + count <= pieces.length; i++) {
    const run = pieces.slice(i, i + count);
    const ends = run.flatMap((s) => [s.points[0]!, s.points[s.points.length - 1]!]);
    const free = ends.filter((p, k) => !ends.some((q, l) => l !== k && same(p, q)));
    if (free.length !== 2) continue;
    const { normal } = line.bends[(f.lead === "A" ? 1 : line.bends.length) - 1]!;
    const chord = size(across(minus(line.finish, line.start), normal));
    const drawn = Math.hypot(free[0]![0] - free[1]![0], free[0]![1] - free[1]![1]);
    if (drawn > 1) return chord / drawn;
  }
  return undefined;
}

/** The strip of marks: where its ticks, numbers, marks, greys and joins lie along the tube, all from the drawing. */
export function markStrip(pages: Page[], f: BarFacts): Seen & { pieces: number } {
  const seen = nothing();
  const step = f.job.inch ? 12.7 : 10;
  const joins = new Map<string, number>();
  const met = new Set<number>();
  const greys: [number, number][] = [];
  let pieces = 0;
  for (const page of pages) {
    for (const rect of page.strokes.filter(
      (s) => isRect(s) && thick(s, 0.25) && !s.filled && near(box(s).y1 - box(s).y0, 28),
    )) {
      const { x0, x1, y0, y1 } = box(rect);
      const inside = (s: Stroke): boolean => {
        const b = box(s);
        return b.x0 > x0 - 0.01 && b.x1 < x1 + 0.01 && b.y0 > y0 - 0.01 && b.y1 < y1 + 0.01;
      };
      const own = page.strokes.filter(inside);
      const ticks = own.filter(
        (s) => upright(s) && thick(s, 0.25) && near(box(s).y1, y1) && box(s).y0 > y1 - 3.1,
      );
      const words = page.words.filter(
        (w) => w.x0 > x0 - 1 && w.x1 < x1 + 1 && w.y0 > y0 - 1 && w.y1 < y1 + 1,
      );
      const numbers = words.filter((w) => /^\d+$/.test(w.text) && (w.y0 + w.y1) / 2 > y1 - 5);
      let zero = pieces === 0 ? x0 : undefined;
      for (const w of numbers) {
        const tick = ticks.find((s) => near(s.points[0]![0], w.x1 + 0.8, 0.35) && near(box(s).y0, y1 - 3));
        const says = Number(w.text) * (f.job.inch ? 25.4 : 1);
        seen.held.add(w);
        if (!tick) {
          seen.faults.push(`strip: ${w.text} has no tick beside it`);
          continue;
        }
        const from = tick.points[0]![0] - says;
        zero ??= from;
        seen.read.push(`tick ${w.text}`);
        if (!near(from, zero, 0.05))
          seen.faults.push(
            `strip: tick ${w.text} lies ${(tick.points[0]![0] - zero).toFixed(2)} mm from the sawn end`,
          );
      }
      const joinsHere = own
        .filter((l) => upright(l) && l.dashed > 5.9 && near(box(l).y0, y0))
        .map((s) => {
          const x = s.points[0]![0];
          const letter = words.find(
            (w) =>
              /^[A-Z]\d*$/.test(w.text) &&
              near((w.y0 + w.y1) / 2, y1 - 10.5, 2) &&
              (near(w.x0, x + 1.2, 0.5) || near(w.x1, x - 1.2, 0.5)),
          )?.text;
          return { x, letter };
        });
      for (const { x, letter } of joinsHere) {
        const known = letter === undefined ? undefined : joins.get(letter);
        if (known !== undefined) zero ??= x - known;
      }
      pieces++;
      if (zero === undefined) {
        seen.faults.push(`strip: piece ${pieces} has no number to find it by`);
        continue;
      }
      const at = (x: number): number => x - zero;
      const expected: number[] = [];
      for (let k = Math.ceil((at(x0) - 1e-6) / step); k * step <= at(x1) + 1e-6; k++) expected.push(k * step);
      const places = ticks.map((s) => at(s.points[0]![0])).sort((a, b) => a - b);
      if (places.length !== expected.length || places.some((p, i) => !near(p, expected[i]!)))
        seen.faults.push(`strip: piece ${pieces} has ticks at ${places.map((p) => p.toFixed(2)).join(" ")}`);
      for (const s of own.filter(
        (l) => upright(l) && thick(l, 0.5) && near(box(l).y0, y0) && near(box(l).y1, y1),
      )) {
        const x = s.points[0]![0];
        if (pieces === 1 && near(x, x0)) continue;
        const ring = words.find(
          (w) => /^\d+$/.test(w.text) && near((w.x0 + w.x1) / 2, x + 4.6, 0.6) && w.y1 < y0 + 10,
        );
        const mark = ring && f.marks[f.lead].get(Number(ring.text));
        if (mark === undefined || !near(at(x), mark))
          seen.faults.push(
            `strip: bend ${ring?.text} is marked at ${at(x).toFixed(2)}, should be ${mark?.toFixed(2)}`,
          );
        else met.add(Number(ring!.text));
      }
      for (const s of own.filter((r) => isRect(r) && SHADE.test(r.filled ?? ""))) {
        const b = box(s);
        greys.push([at(b.x0), at(b.x1)]);
      }
      for (const { x, letter } of joinsHere) {
        if (letter === undefined) {
          seen.faults.push("strip: a join has no letter");
          continue;
        }
        const known = joins.get(letter);
        if (known !== undefined && !near(known, at(x)))
          seen.faults.push(`strip: join ${letter} lies at ${known.toFixed(2)} and at ${at(x).toFixed(2)}`);
        joins.set(letter, at(x));
      }
    }
  }
  for (const n of f.order) {
    if (!met.has(n)) seen.faults.push(`strip: bend ${n} has no mark`);
  }
  const drawn = joined(greys);
  const wanted = joined(f.order.map((n) => greyOf(f, n)));
  const say = (list: [number, number][]): string =>
    list.map(([a, b]) => `${a.toFixed(2)}-${b.toFixed(2)}`).join(" ");
  if (
    drawn.length !== wanted.length ||
    drawn.some(([a, b], i) => !near(a, wanted[i]![0], 0.05) || !near(b, wanted[i]![1], 0.05))
  )
    seen.faults.push(`strip: grey is ${say(drawn)}, should be ${say(wanted)}`);
  return { ...seen, pieces };
}

/** Runs that overlap or touch are one. */
function joined(runs: [number, number][]): [number, number][] {
  const out: [number, number][] = [];
  for (const [a, b] of [...runs].sort((p, q) => p[0] - q[0])) {
    const last = out[out.length - 1];
    if (last && a <= last[1] + 0.02) last[1] = Math.max(last[1], b);
    else out.push([a, b]);
  }
  return out;
}

/** Where a bend takes up tube, from the sawn end that is fed first. */
function greyOf(f: BarFacts, n: number): [number, number] {
  const start = f.marks[f.lead].get(n)! - (f.laid.die?.mark ?? 0);
  return [start, start + (f.laid.die?.arcFactor ?? 1) * f.laid.line.bends[n - 1]!.part.length];
}

/** The wraps on a sheet of paper, each as a drawing of its own. */
export function wrapsOn(page: Page, girth: number): { drawn: Drawn; base?: string }[] {
  return page.strokes
    .filter((s) => isRect(s) && thick(s, 0.25) && !s.filled && near(box(s).x1 - box(s).x0, girth + 12, 0.1))
    .map((rect) => {
      const { x0, x1, y0, y1 } = box(rect);
      const local = ([x, y]: [number, number]): [number, number] => [x - x0, y - y0];
      const own = page.strokes.filter((s) => {
        const b = box(s);
        return b.x0 > x0 - 0.02 && b.x1 < x1 + 0.02 && b.y0 > y0 - 0.02 && b.y1 < y1 + 0.02;
      });
      const words = page.words.filter(
        (w) => w.x0 > x0 - 0.5 && w.x1 < x1 + 1 && w.y0 > y0 - 1 && w.y1 < y1 + 1,
      );
      const base = /Base line (.*?) in from/.exec(words.map((w) => w.text).join(" "))?.[1];
      return {
        ...(base === undefined ? {} : { base }),
        drawn: {
          width: x1 - x0,
          height: y1 - y0,
          title: "",
          cut: own.filter((s) => thick(s, 0.35)).map((s) => s.points.map(local)),
          lines: own
            .filter((s) => s.stroked && !thick(s, 0.35))
            .map((s) => ({
              kind: s.dashed > 5.9 ? "centre" : thick(s, 0.5) ? "visible" : "narrow",
              points: s.points.map(local),
            })),
          texts: words.map((w) => ({ text: w.text, x: w.x0 - x0, y: w.y1 - y0 })),
        },
      };
    });
}

/** A wrap against the second computation's own curve: girth, quarter lines, base line, every third point of the cut. */
export function wrapDrawn(
  drawn: Drawn,
  base: number,
  f: BarFacts,
  end: End,
  square: boolean,
  paper: number,
): string[] {
  const faults: string[] = [];
  const girth = Math.PI * (f.laid.tube.od + paper);
  const cope = f.cope[end];
  const { joint } = cope;
  const foot = drawn.height;
  if (!near(drawn.width, girth + 12))
    faults.push(`the paper is ${drawn.width.toFixed(2)} wide, should be ${(girth + 12).toFixed(2)}`);
  const lines = drawn.lines.filter(
    (l) =>
      l.points.length === 2 &&
      near(l.points[0]![0], l.points[1]![0], 1e-3) &&
      near(Math.abs(l.points[0]![1] - l.points[1]![1]), foot, 0.05),
  );
  for (const [k, kind] of ["visible", "centre", "centre", "centre", "visible"].entries()) {
    const x = (girth * k) / 4;
    if (!lines.some((l) => l.kind.toLowerCase() === kind && near(l.points[0]![0], x, 0.05)))
      faults.push(`line ${90 * k}° is not at ${x.toFixed(2)}`);
    if (!drawn.texts.some((t) => t.text === `${90 * k}°` && near(t.x, x + 1, 0.4)))
      faults.push(`${90 * k}° is not written at its line`);
  }
  // the long point is the base line's distance above it
  const backAt = (y: number): number => cope.least + y - (foot - base);
  let worst = 0;
  let count = 0;
  let met = 0;
  for (const run of drawn.cut)
    for (const [x, y] of run) {
      count++;
      const line = (x / girth) * 720;
      const i = Math.round(line);
      if (!near(line, i, 0.02))
        faults.push(`a point of the curve lies between lines, at ${(line / 2).toFixed(3)}°`);
      met++;
      if (count % (square ? 8 : 3) !== 0) continue;
      const b = backAt(y);
      const own = square ? cope.square(i % 720) : cope.outside[i % 720]!;
      let off = Math.abs(b - own);
      // near a graze the curve is steep: then what counts is the distance from the host
      if (off > 0.02 && !square) off = Math.min(off, Math.abs(joint.solid(joint.at(b, joint.rho, i / 2))));
      if (!(off <= worst)) worst = off;
    }
  if (!(worst < (square ? 0.03 : 0.02))) faults.push(`the curve is ${worst.toFixed(3)} mm off`);
  const whole = [...cope.outside].filter((b) => !Number.isNaN(b)).length;
  if (met < whole * 0.995) faults.push(`the curve has ${met} points, should have ${whole}`);
  return faults;
}

interface View {
  name: RegExp;
  right: V;
  up: V;
}
const VIEWS: View[] = [
  { name: /^Seen from the left/, right: [-1, 0, 0], up: [0, 0, 1] },
  { name: /^Seen from in front/, right: [0, 1, 0], up: [0, 0, 1] },
  { name: /^Seen from above/, right: [-1, 0, 0], up: [0, -1, 0] },
];

/** The three views: their reduction, and that every number lies on its own bar. */
export function overviewDrawn(page: Page, second: Second): Seen & { scale?: number } {
  const seen = nothing();
  const text = (i: number): string =>
    page.words
      .slice(i, i + 6)
      .map((w) => w.text)
      .join(" ");
  const heads = VIEWS.map(({ name }) => page.words.find((_, i) => name.test(text(i))));
  if (heads.some((h) => !h)) return seen;
  const [left, front, above] = heads as [Word, Word, Word];
  const rooms = [
    { x0: 0, x1: front.x0 - 1, y0: 0, y1: left.y0 },
    { x0: front.x0 - 1, x1: page.width, y0: 0, y1: front.y0 },
    { x0: 0, x1: front.x0 - 1, y0: left.y1, y1: above.y0 },
  ];
  const scales: number[] = [];
  for (const [k, room] of rooms.entries()) {
    const view = VIEWS[k]!;
    const within = (x0: number, x1: number, y0: number, y1: number): boolean =>
      x0 > room.x0 && x1 < room.x1 && y0 > room.y0 - 1 && y1 < room.y1 + 1;
    const sides = page.strokes.filter((s) => {
      const b = box(s);
      return s.stroked && !s.filled && !s.curved && thick(s, 0.25) && within(b.x0, b.x1, b.y0, b.y1);
    });
    const drawn = sides.map(box);
    const x0 = Math.min(...drawn.map((b) => b.x0));
    const x1 = Math.max(...drawn.map((b) => b.x1));
    const y0 = Math.min(...drawn.map((b) => b.y0));
    const y1 = Math.max(...drawn.map((b) => b.y1));
    const own = extents(second, view);
    const scale = (own.r1 - own.r0) / (x1 - x0);
    scales.push(scale);
    const rings = page.strokes.filter((s) => s.curved && s.closed && s.filled?.startsWith("1"));
    for (const w of page.words.filter((v) => /^\d+$/.test(v.text) && within(v.x0, v.x1, v.y0, v.y1))) {
      const c: [number, number] = [(w.x0 + w.x1) / 2, (w.y0 + w.y1) / 2];
      const ring = rings.find((r) => {
        const b = box(r);
        return c[0] > b.x0 && c[0] < b.x1 && c[1] > b.y0 && c[1] < b.y1;
      });
      if (!ring) continue;
      seen.held.add(w);
      seen.read.push(`ring ${w.text}`);
      const b = box(ring);
      const r = own.r0 + ((b.x0 + b.x1) / 2 - x0) * scale;
      // a bend that turns toward the viewer at its top or foot is drawn by chords: an edge may be a little short
      const [top, foot] = [
        own.u1 - ((b.y0 + b.y1) / 2 - y0) * scale,
        own.u0 + (y1 - (b.y0 + b.y1) / 2) * scale,
      ];
      const ups = [top, foot, (top + foot) / 2];
      const id = second.ids[Number(w.text) - 1];
      const off =
        id === undefined
          ? Infinity
          : Math.min(...ups.map((u) => fromProjected(second.laid.get(id)!.line, view, r, u)));
      if (off > 0.2 * scale)
        seen.faults.push(`overview, ${view.name.source}: ring ${w.text} lies ${off.toFixed(0)} mm off ${id}`);
    }
  }
  const scale = scales[0]!;
  if (scales.some((s) => Math.abs(s / scale - 1) > 0.005))
    seen.faults.push(`overview: the views are drawn 1 : ${scales.join(", ")}`);
  return { ...seen, scale };
}

function extents(second: Second, { right, up }: View) {
  let [r0, r1, u0, u1] = [Infinity, -Infinity, Infinity, -Infinity];
  for (const laid of second.laid.values()) {
    const { line } = laid;
    const steps = Math.ceil(line.length / 2);
    for (let i = 0; i <= steps; i++) {
      const { at, dir } = placeOn(line, (line.length * i) / steps);
      const wide = (e: V): number => (laid.tube.od / 2) * Math.sqrt(Math.max(0, 1 - inner(dir, e) ** 2));
      r0 = Math.min(r0, inner(at, right) - wide(right));
      r1 = Math.max(r1, inner(at, right) + wide(right));
      u0 = Math.min(u0, inner(at, up) - wide(up));
      u1 = Math.max(u1, inner(at, up) + wide(up));
    }
  }
  return { r0, r1, u0, u1 };
}

function fromProjected(line: Line, { right, up }: View, r: number, u: number): number {
  let least = Infinity;
  const steps = Math.ceil(line.length / 2);
  for (let i = 0; i <= steps; i++) {
    const { at } = placeOn(line, (line.length * i) / steps);
    least = Math.min(least, Math.hypot(inner(at, right) - r, inner(at, up) - u));
  }
  return least;
}

/** The square and the rules to check the printer by: true to size. */
export function checkMarks(page: Page): string[] {
  const square = page.strokes.find(
    (s) =>
      isRect(s) &&
      thick(s, 0.25) &&
      !s.filled &&
      near(box(s).x1 - box(s).x0, 100, 0.5) &&
      near(box(s).y1 - box(s).y0, 100, 0.5),
  );
  const faults: string[] = [];
  if (square) {
    const { x0, x1, y0, y1 } = box(square);
    if (!near(x1 - x0, 100) || !near(y1 - y0, 100))
      faults.push(`the check square is ${(x1 - x0).toFixed(3)} × ${(y1 - y0).toFixed(3)}`);
    if (!page.strokes.some((s) => upright(s) && near(s.points[0]![0], x0 + 101.6)))
      faults.push("no mark at 4 in across");
    if (
      !page.strokes.some(
        (s) =>
          s.points.length === 2 &&
          near(s.points[0]![1], s.points[1]![1]) &&
          near(s.points[0]![1], y0 + 101.6),
      )
    )
      faults.push("no mark at 4 in down");
    return faults;
  }
  const rule = page.strokes.filter(
    (s) =>
      s.points.length === 2 &&
      near(Math.hypot(s.points[0]![0] - s.points[1]![0], s.points[0]![1] - s.points[1]![1]), 101.6),
  );
  if (rule.length < 2) faults.push("neither check square nor check rules are true to size");
  return faults;
}
