import { printed } from "../figure.ts";
import type { Page } from "../read-pdf.ts";
import type { BarFacts } from "../second/index.ts";
import { across, minus, size } from "../second/vec.ts";
import { box, isRect, near, nothing, type Seen, SHADE, thick, upright } from "./lines.ts";

/** The straight tube on the bender card: its reduction, measured; marks, shades, arrows and their words in place. */
export function markedTube(page: Page, f: BarFacts): Seen & { scale?: number } {
  const seen = nothing();
  // of the sheet's boxes it is the one along whose middle the tube's axis runs
  const tube = page.strokes.find((s) => {
    if (!isRect(s) || !thick(s, 0.5) || s.filled) return false;
    const b = box(s);
    return page.strokes.some((l) => {
      const a = box(l);
      return l.dashed > 5.9 && near(a.x0, b.x0 - 2) && near(a.x1, b.x1 + 2) && near(a.y0, (b.y0 + b.y1) / 2);
    });
  });
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
    const at1 = page.words.indexOf(unit);
    // a fraction that was rounded says which way, before its unit
    const mark = /^[−+]$/.test(page.words[at1 - 1]!.text) ? page.words[at1 - 1]!.text : "";
    const i = mark === "" ? at1 : at1 - 1;
    const [one, two] = [page.words[i - 1]!, page.words[i - 2]];
    const whole =
      two &&
      /^\d+$/.test(two.text) &&
      near(two.y0, one.y0, 0.01) &&
      one.x0 - two.x1 < 2 &&
      one.text.includes("/");
    const said = `${whole ? `${two.text} ` : ""}${one.text} ${mark}${mark && " "}${unit.text}`;
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
