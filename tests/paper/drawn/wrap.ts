import type { Page } from "../read-pdf.ts";
import type { Drawn } from "../read-svg.ts";
import type { BarFacts, End } from "../second/index.ts";
import { box, isRect, near, thick, upright } from "./lines.ts";

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

/** The wrap itself out of a drawing that may carry more below it. */
export function cropped(drawn: Drawn, girth: number): Drawn {
  const rect = drawn.lines.find(({ points }) => {
    const xs = points.map((p) => p[0]);
    return points.length === 5 && near(Math.min(...xs), 0) && near(Math.max(...xs), girth + 12, 0.1);
  });
  if (!rect) return drawn;
  const height = Math.max(...rect.points.map((p) => p[1]));
  return { ...drawn, width: Math.max(...rect.points.map((p) => p[0])), height };
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
  let between = 0;
  let count = 0;
  let met = 0;
  for (const run of drawn.cut)
    for (const [x, y] of run) {
      count++;
      const line = (x / girth) * 720;
      const i = Math.round(line);
      if (!near(line, i, 0.02) && between++ === 0)
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
