import { type CutKind, WRAP_LINES } from "../core/cope/index.ts";
import type { End } from "../core/job/index.ts";
import { extent, girth } from "../core/tube/index.ts";
import {
  type Anchor,
  type Drawing,
  group,
  hatch,
  line,
  type Mark,
  type Placed,
  type Point,
  paragraph,
  polygon,
  polyline,
  rectangle,
  text,
  textWidth,
} from "../draw/index.ts";
import { sayBaseLine, sayHalfLine, sayZeroLine, WRAP } from "../words/index.ts";
import { barParts, type Subject, sayOnto } from "./subject.ts";
import { curveOf, PAPER_THICKNESS, wrapFor } from "./wrap-curve.ts";

/** Paper beyond the long point, mm. */
const WASTE = 12;
/** Paper that goes under the start when the wrap is closed, mm. */
const TAB = 12;
/** Words on a wrap run no farther than this, so that a wrap in pieces has them whole on its first (mm). */
const ONE_SHEET = 150;
/** Room above the base line for the names of the lines, mm. */
const BAND = 6.5;

/** Base line to long point (mm): a round figure in the unit that the shop reads. */
function baseDistance(s: Subject, needed: number): number {
  const step = s.plan.job.show.length === "in" ? 12.7 : 10;
  return Math.ceil(needed / step) * step;
}

/**
 * The wrap at true size: printed face out, cut edge up, φ to the right from the zero line, closed where 360 meets 0.
 * The base line runs square round the tube, a stated distance from the long point. What is hatched is waste.
 */
export function wrapDrawing(s: Subject, end: End, kind: CutKind, thickness = PAPER_THICKNESS): Drawing {
  const { cope } = s.bar.copes[end];
  const { back, wide, base, most } = measured(s, end, kind, thickness);
  const words = label(s, end, kind, base, thickness, wide);
  const x = (phi: number): number => (phi / 360) * wide;
  const y = (b: number): number => WASTE + b - cope.least;
  const runs = curveRuns(back, x, y);
  const foot = WASTE + base;
  const deepest = y(most);
  return {
    width: wide + TAB,
    height: foot,
    marks: [
      ...waste(runs),
      ...upright(s, end, x, foot),
      ...missing(back, x, deepest),
      ...runs.map((run) => polyline(run, "cut")),
      ...outlineOf(wide, foot),
      ...longMark(back, x, y, kind),
      ...wasteWord(runs, back, x, kind),
      group("words", words.marks, { at: [0, foot - BAND - words.height] }),
    ],
  };
}

/** The size of `wrapDrawing`'s drawing (mm), without drawing it. */
export function wrapSize(s: Subject, end: End, kind: CutKind, thickness = PAPER_THICKNESS) {
  const { wide, base } = measured(s, end, kind, thickness);
  return { width: wide + TAB, height: WASTE + base };
}

function measured(s: Subject, end: End, kind: CutKind, thickness: number) {
  const back = curveOf(s.bar.copes[end], kind);
  if (!back) throw new Error("a square end needs no wrap");
  const most = Math.max(...back.filter((b) => !Number.isNaN(b)));
  const wide = girth(s.bar.bar.tube, thickness);
  // the words need the same room whatever the distance that they name
  const room = label(s, end, kind, 100, thickness, wide).height + BAND + 2;
  return { back, most, wide, base: baseDistance(s, most - s.bar.copes[end].cope.least + room) };
}

/** The curve in pieces between lines that miss; a whole one runs from 0 to 360. */
function curveRuns(
  back: Float64Array,
  x: (phi: number) => number,
  y: (b: number) => number,
): (readonly Point[])[] {
  const runs: Point[][] = [];
  let run: Point[] = [];
  for (const [i, b] of [...back, ...back.subarray(0, 1)].entries()) {
    if (!Number.isNaN(b)) run.push([x(i / 2), y(b)]);
    if ((Number.isNaN(b) || i === WRAP_LINES) && run.length > 0) {
      if (run.length > 1) runs.push(run);
      run = [];
    }
  }
  return runs;
}

const waste = (runs: readonly (readonly Point[])[]): Mark[] =>
  runs.flatMap((run) => {
    const [first, last] = [run[0], run.at(-1)];
    return first && last ? hatch([...run, [last[0], 0], [first[0], 0]], 4) : [];
  });

/** Zero, quarter and half lines, with what they are on the tube, in a band of their own above the base line. */
function upright(s: Subject, end: End, x: (phi: number) => number, foot: number): Mark[] {
  const { zeroLine } = s.bar.copes[end].cope;
  const names: readonly (readonly [number, string])[] = [
    [0, WRAP.zero(zeroLine)],
    [90, ""],
    [180, sayHalfLine(zeroLine)],
    [270, ""],
    [360, ""],
  ];
  return names.flatMap(([phi, name]): Mark[] => {
    const at = x(phi);
    const isZero = phi % 360 === 0;
    return [
      line([at, 0], [at, foot], isZero ? "visible" : "centre"),
      text([at + 1, foot - BAND + 2.4], `${phi}°`, 2, { bold: isZero }),
      ...(name ? [text([at + 1, foot - 1], name, 2, { bold: isZero })] : []),
    ];
  });
}

/** Arcs of the rim that touch nothing: the edge is left open and says so. */
function missing(back: Float64Array, x: (phi: number) => number, deepest: number): Mark[] {
  const marks: Mark[] = [];
  let from: number | undefined;
  // past the last line nothing misses: an arc that reaches it ends there
  for (const [i, b] of [...back, 0].entries()) {
    const misses = Number.isNaN(b);
    if (misses && from === undefined) from = i;
    if (!misses && from !== undefined) {
      const [a, b] = [x(from / 2), x(i / 2)];
      const room = b - a - 2;
      const words = WRAP.misses;
      if (room > 3) {
        const turned = room < textWidth(words, 2.2);
        const at: Point = [(a + b) / 2 + (turned ? 1 : 0), (deepest + WASTE) / 2];
        if (turned) marks.push(text(at, words, 2.2, { anchor: "middle", bold: true, rotate: -90 }));
        else marks.push(...onPanel(at, words, "middle", true));
      }
      from = undefined;
    }
  }
  return marks;
}

/** The paper's own edge, the overlap and the base line. */
function outlineOf(wide: number, foot: number): Mark[] {
  return [
    rectangle({ x: 0, y: 0, width: wide + TAB, height: foot }, "narrow"),
    line([0, foot], [wide + TAB, foot], "visible"),
    text([wide + TAB - 4, foot - BAND - 1], WRAP.overlap, 1.9, { rotate: -90 }),
  ];
}

/** The farthest place of the curve, and what is cut off; on a square cut that is not the tube's own long point. */
function longMark(
  back: Float64Array,
  x: (phi: number) => number,
  y: (b: number) => number,
  kind: CutKind,
): Mark[] {
  const { at, side, words } = longWords(back, x, kind);
  const high = y(leastOf(back).b);
  return [
    polyline(
      [
        [at, high],
        [at + side * 4, 5],
      ],
      "narrow",
    ),
    polygon(
      [
        [at, high],
        [at - 1, high - 2.2],
        [at + 1, high - 2.2],
      ],
      undefined,
      "ink",
    ),
    ...onPanel([at + side * 4, 5], words, side > 0 ? "start" : "end"),
  ];
}

/** "waste" over the longest run of the cut, clear of the words at the long point; left out where there is no room. */
function wasteWord(
  runs: readonly (readonly Point[])[],
  back: Float64Array,
  x: (phi: number) => number,
  kind: CutKind,
): Mark[] {
  const [longest] = [...runs].sort((a, b) => b.length - a.length);
  if (!longest) return [];
  const { from, to } = longWords(back, x, kind);
  const half = textWidth(WRAP.waste, 2) / 2 + 2;
  const clear = (at: number): number => Math.max(from - half - at, at - to - half);
  const spots = [0.12, 0.3, 0.5, 0.7, 0.88].flatMap(
    (t) => longest[Math.floor(t * (longest.length - 1))]?.[0] ?? [],
  );
  const best = spots.reduce((p, q) => (clear(q) > clear(p) ? q : p));
  return clear(best) < 0 ? [] : onPanel([best, 4], WRAP.waste, "middle");
}

/** The words at the long point, where they begin and end, and on which side of it they are. */
function longWords(back: Float64Array, x: (phi: number) => number, kind: CutKind) {
  const at = x(leastOf(back).i / 2);
  const side = at < x(180) ? 1 : -1;
  const words = WRAP.long[kind === "square" ? "square" : "tube"];
  const ends = [at + side * 4, at + side * (5.4 + textWidth(words, 2))];
  return { at, side, words, from: Math.min(...ends), to: Math.max(...ends) };
}

/** Which line is farthest out, and its back. */
function leastOf(back: Float64Array): { readonly i: number; readonly b: number } {
  let least: { i: number; b: number } | undefined;
  for (const [i, b] of back.entries()) {
    if (!Number.isNaN(b) && (!least || b < least.b - 1e-9)) least = { i, b };
  }
  if (!least) throw new Error("a curve that misses all round has no wrap");
  return least;
}

/** Small words that hide the hatching under them. */
function onPanel(at: Point, words: string, anchor: Anchor, bold = false): Mark[] {
  const room = textWidth(words, 2, bold) + 1.4;
  const left = anchor === "start" ? at[0] : anchor === "end" ? at[0] - room : at[0] - room / 2;
  return [
    rectangle({ x: left, y: at[1] - 3, width: room, height: 3.6 }, undefined, "paper"),
    text([left + 0.7, at[1] - 0.3], words, 2, { bold }),
  ];
}

function label(s: Subject, end: End, kind: CutKind, base: number, thickness: number, wide: number): Placed {
  const { cope } = s.bar.copes[end];
  const { length } = s.write;
  const place = sayBaseLine({
    long: length(base),
    sawn: length(base + s.bar.bend.trim[end]),
    bend: nearBend(s, end, base),
  });
  const od = s.size(extent(s.bar.bar.tube));
  const lines: [string, number, boolean][] = [
    [WRAP.edge(...barParts(s, end)), 2.5, true],
    [`${WRAP.cut[wrapFor(s, end, kind)]} ${WRAP.faceOut}`, 2, true],
    [place, 2, false],
    [WRAP.paper(sayOnto(s, end), sayZeroLine(cope.zeroLine), od, thickness.toFixed(2)), 2, false],
  ];
  if (s.bar.copes[end].cope.bentInJoint) lines.push([WRAP.bentInJoint, 2, true]);
  // the quarter lines are broken where the words are, and go on below them
  const left = 5;
  const room = Math.min(wide - 2 * left, ONE_SHEET);
  const placed: Mark[] = [];
  let y = 0.5;
  for (const [said, size, bold] of lines) {
    const block = paragraph([left, y], room, said, { size, bold });
    placed.push(...block.marks);
    y += block.height + 0.4;
  }
  return {
    marks: [rectangle({ x: left - 1, y: 0, width: room + 2, height: y }, undefined, "paper"), ...placed],
    height: y,
  };
}

/** The bend next to an end as seen from the wrap's base line: how far it is away, or how far the line falls into it. */
function nearBend(s: Subject, end: End, base: number) {
  const { bends, length } = s.bar.bar.centreline;
  const bend = end === "A" ? bends[0] : bends[bends.length - 1];
  if (!bend) return undefined;
  const toLanding = end === "A" ? bend.start : length - bend.end;
  const mm = toLanding - s.bar.copes[end].cope.least - base;
  return mm >= 0 ? { n: bend.n, away: s.write.length(mm) } : { n: bend.n, into: s.write.length(-mm) };
}
