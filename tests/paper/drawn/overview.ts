import type { Page, Word } from "../read-pdf.ts";
import type { Second } from "../second/index.ts";
import { type Line, placeOn } from "../second/line.ts";
import { inner, type V } from "../second/vec.ts";
import { box, nothing, type Seen, thick } from "./lines.ts";

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
