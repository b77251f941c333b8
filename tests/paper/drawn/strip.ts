import type { Page, Stroke } from "../read-pdf.ts";
import type { BarFacts } from "../second/index.ts";
import { box, isRect, near, nothing, type Seen, SHADE, thick, upright } from "./lines.ts";

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
