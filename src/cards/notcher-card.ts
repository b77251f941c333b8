import { joinedArcs, type Notch, type SawCut, type SawFit } from "../core/cope/index.ts";
import { deg, wrapPi } from "../core/numeric/index.ts";
import { group, type Mark, type Paper, paragraph, rectangle, type Sheet, table } from "../draw/index.ts";
import { cautionOn, sayArcs, TRUE_SIZE } from "../words/index.ts";
import { dangerBlocks, findingBlocks, fromBlocks } from "./blocks.ts";
import { type EndOf, endOf, sideName, standsTo } from "./ends.ts";
import { type Block, figure, flow, heading, words } from "./flow.ts";
import { gapPlot } from "./gap-plot.ts";
import { roundTube, sayClock, sayHalfLine, sayZeroLine, whyNoSaw } from "./say.ts";
import { fromSawn, stepTable } from "./step-table.ts";
import { barFields, type Subject, sayOnto } from "./subject.ts";
import { END_VIEW, endView } from "./tube-end.ts";

/** Findings that the banner over an end says. */
const BANNER: ReadonlySet<string> = new Set(["notch-gap", "notch-no-saw", "notch-no-cut"]);

/** What the notcher needs of both ends of one bar. */
export function notcherSheets(s: Subject, paper: Paper): Sheet[] {
  const card = { title: `Notcher card — ${s.label}`, fields: barFields(s), note: cautionOn("notcher card") };
  const [a, b] = [endOf(s, "A"), endOf(s, "B")];
  return flow(paper, card, ({ width }) => [
    ...dangerBlocks(s, width),
    ...endBlocks(s, a, width),
    ...endBlocks(s, b, width),
    ...standing(s, a, b, width),
    ...findingBlocks(
      // what the banner over an end says is not said twice
      [a, b].flatMap((e) => [
        ...s.bar.copes[e.end].findings,
        ...(e.notch?.findings ?? []).filter((f) => !BANNER.has(f.code)),
      ]),
      s,
      width,
    ),
    ...fromBlocks(s, width),
  ]);
}

function endBlocks(s: Subject, e: EndOf, width: number): Block[] {
  const { cope, notch } = e;
  const onto = cope.kind === "square" ? "sawn square" : `onto ${sayOnto(s, e.end)}`;
  const head = heading(`End ${e.end} — ${onto}`, width);
  if (cope.kind !== "on") return [head, flat(s, e, width)];
  const blocks = [
    head,
    ...banner(s, e, width),
    ...(notch?.cuts.length ? [crowd(s, notch, width)] : []),
    ...(notch?.useWrap ? [byWrap(e, width)] : []),
    ...(notch?.useWrap && notch.saw ? [roughOut(s, notch.saw, width)] : []),
    settings(s, e, width),
    ...(notch?.useWrap ? missed(s, e, width) : [...missed(s, e, width), ...fitted(s, e, width)]),
  ];
  // one end on one sheet, if it fits
  return blocks.map((block, i) => ({ ...block, keep: i < blocks.length - 1 }));
}

/** Said first and large where no saw cut will do. */
function banner(s: Subject, { notch }: EndOf, width: number): Block[] {
  if (!notch?.useWrap) return [];
  const { notcher, shop } = s.plan.job;
  const why = notch.saw
    ? `the best ${notch.cuts.length > 0 ? "single " : ""}saw cut leaves a gap of ${s.fine(notch.saw.gap)} at ${s.write.angle(notch.saw.gapAt)}; accepted is ${s.fine(notcher.wrapBeyond ?? shop.gap)}`
    : whyNoSaw(notch, s.size);
  const said = paragraph(
    [2, 1],
    width - 4,
    `USE THE WRAP${notch.cuts.length > 0 ? ", OR THE CUTS FOR EACH HOST BELOW" : ""} — ${why}`,
    { size: 3, bold: true },
  );
  return [
    {
      marks: [rectangle({ x: 0, y: 0, width, height: said.height + 2 }, "visible"), ...said.marks],
      height: said.height + 2,
    },
  ];
}

/** The wrap's own steps. */
function byWrap({ cope }: EndOf, width: number): Block {
  const steps = [
    TRUE_SIZE,
    `Lay its line 0° on the zero line (${sayZeroLine(cope.zeroLine)}), printed face out, and close it 360 on 0.`,
    "Scribe along its cut edge; take the paper off; cut to the line and file.",
  ];
  let y = 0;
  const marks = steps.flatMap((says, i) => {
    const said = paragraph([0, y], width, `${i + 1}. ${says}`, { size: 2.5 });
    y += said.height + 0.5;
    return said.marks;
  });
  return { marks, height: y };
}

/** Over the saw's figures where the wrap is the method. */
const roughOut = (s: Subject, saw: SawFit, width: number): Block =>
  words(
    `Rough out with this one hole saw cut; it stays inside the final shape and leaves up to ${s.fine(saw.most)} to file, at ${s.write.angle(saw.mostAt)}.`,
    width,
    { bold: true },
  );

/** A flat cut: square, or leaning off square on a plate. */
function flat(s: Subject, e: EndOf, width: number): Block {
  const { cope } = e;
  const room = width - END_VIEW.width - 4;
  const figures =
    e.tilt === 0
      ? [figure([0, 0], room, "SAW", "square", "square to the tube all round; no clock", 8)]
      : [
          figure([0, 0], room * 0.45, "SAW FLAT AT", s.write.angle(deg(e.tilt)), "off square", 8),
          figure(
            [room * 0.5, 0],
            room * 0.5,
            "LONG POINT",
            clockFigure(s, e.heel!),
            `${clockWay(e.heel!)} the zero line, ${roundTube(e.heel!, s.bar.bar.tube, s.write)} round the tube, looking at the cut end`,
            6,
          ),
        ];
  const zero = paragraph([0, 26], room, zeroWords(e), { size: 2.3 });
  const flatness =
    e.tilt === 0
      ? []
      : paragraph(
          [0, 27 + zero.height],
          room,
          `From long point to short point along the tube: ${s.write.length(cope.greatest - cope.least)}. The long point stands on the ${s.bar.bend.trim[e.end] > 0 ? "blank's end inside the trim" : "blank's end"}, ${s.write.length(s.bar.bend.trim[e.end])} in from the sawn end.`,
          { size: 2.3 },
        ).marks;
  const view = endView(cope, sayZero(e), e.heel === undefined ? {} : { long: deg(e.heel) });
  return {
    marks: [
      ...figures.flatMap((f) => f.marks),
      ...zero.marks,
      ...flatness,
      group("end view", view.marks, { at: [width - END_VIEW.width, 0] }),
    ],
    height: view.height,
  };
}

const sayZero = (e: EndOf): string => sayZeroLine(e.cope.zeroLine);

const zeroWords = (e: EndOf): string =>
  `Zero line: ${sayZero(e)}. The side opposite it: ${sayHalfLine(e.cope.zeroLine)}.`;

const clockFigure = (s: Subject, phi: number): string => s.write.angle(Math.abs(deg(wrapPi(phi))));

const clockWay = (phi: number): string => (wrapPi(phi) >= 0 ? "counter-clockwise from" : "clockwise from");

/** Saw, angle, offset, hole centre and clock; the tube end beside them. */
function settings(s: Subject, e: EndOf, width: number): Block {
  const { cope, notch } = e;
  const room = width - END_VIEW.width - 4;
  const view = endView(cope, sayZero(e), {
    ...(e.heel === undefined ? {} : { heel: e.heel }),
    ...(notch?.saw ? { offset: notch.saw.cut.offset } : {}),
    long: cope.leastAt,
  });
  const marks: Mark[] = [group("end view", view.marks, { at: [width - END_VIEW.width, 0] })];
  let y = 0;
  const { saw, hole } = notch ?? {};
  if (saw && hole) {
    const { cut } = saw;
    const half = room / 2;
    const rowOne = [
      figure(
        [0, y],
        half - 3,
        "SAW, OUTSIDE Ø",
        s.size(2 * cut.radius),
        notch!.exact
          ? "one cut makes the seat exactly"
          : notch!.flush
            ? "one cut seats all of the rim that meets the host"
            : "the nearest that one cut comes",
        7,
      ),
      figure([half, y], half, "NOTCH ANGLE", s.write.angle(deg(cut.notch)), "off square", 7),
    ];
    y += Math.max(...rowOne.map((f) => f.height)) + 2;
    const rowTwo = [
      figure([0, y], half - 3, "CLOCK OF THE HEEL", clockFigure(s, cut.clock), clockBelow(s, cut), 6),
      figure(
        [half, y],
        half,
        "HOLE CENTRE",
        s.write.length(Math.abs(hole.beyondLong)),
        holeBelow(s, hole),
        6,
      ),
    ];
    y += Math.max(...rowTwo.map((f) => f.height)) + 2;
    const side = offsetWords(s, cut);
    const last = figure([0, y], room, "SIDE OFFSET OF THE SAW", side.value, side.below, 4);
    y += last.height + 1;
    for (const f of [...rowOne, ...rowTwo, last]) marks.push(...f.marks);
  } else {
    const none = figure([0, y], room, "NO SINGLE SAW CUT", "use the wrap", whyNoSaw(notch, s.size), 7);
    marks.push(...none.marks);
    y += none.height + 1;
  }
  const zero = paragraph([0, y], room, zeroWords(e), { size: 2.3 });
  marks.push(...zero.marks);
  return { marks, height: Math.max(view.height, y + zero.height) };
}

function clockBelow(s: Subject, cut: SawCut): string {
  const round = `${roundTube(cut.clock, s.bar.bar.tube, s.write)} round the tube`;
  const square = cut.notch === 0 ? "; the saw stands square, so either side of its axis will do" : "";
  return `${clockWay(cut.clock)} the zero line, looking at the cut end: ${round}${square}`;
}

interface Hole {
  readonly beyondLong: number;
  readonly fromBend?: number;
  readonly fromSawn: number;
}

function holeBelow(s: Subject, hole: Hole): string {
  const where =
    Math.abs(hole.beyondLong) < 0.005
      ? "on the long point"
      : hole.beyondLong > 0
        ? "beyond the long point, out in the waste"
        : "in from the long point";
  const sawn = `${s.write.length(Math.abs(hole.fromSawn))} ${hole.fromSawn >= 0 ? "in from the sawn end" : "off the sawn end: leave more trim"}`;
  const bend = hole.fromBend === undefined ? "" : `; ${s.write.length(hole.fromBend)} from the nearest bend`;
  return `${where}; ${sawn}${bend}`;
}

function offsetWords(s: Subject, cut: SawCut): { readonly value: string; readonly below: string } {
  if (Math.abs(cut.offset) < 0.005)
    return { value: "none", below: "the saw's axis passes through the tube's axis" };
  const way = cut.offset > 0 ? 1 : -1;
  const side = sayClock(cut.clock + (way * Math.PI) / 2, s.write);
  return {
    value: s.fine(Math.abs(cut.offset)),
    below: `the saw's axis stands off the tube's toward the side 90° ${way > 0 ? "counter-clockwise" : "clockwise"} of the heel, ${side}${side.includes("zero line") ? "" : " from the zero line"}`,
  };
}

/** A crowded end on straight hosts: one exact cut for each. */
function crowd(s: Subject, notch: Notch, width: number): Block {
  const columns = [
    { title: "Cut for", width: width * 0.22 },
    { title: "Saw Ø", width: width * 0.12, anchor: "end" as const },
    { title: "Off square", width: width * 0.12, anchor: "end" as const },
    { title: "Heel from the zero line", width: width * 0.24 },
    { title: "Offset", width: width * 0.12, anchor: "end" as const },
    { title: "Hole from the sawn end", width: width * 0.18, anchor: "end" as const },
  ];
  const rows = notch.cuts.map(({ host, cut, hole }) => [
    host,
    s.size(2 * cut.radius),
    s.write.angle(deg(cut.notch)),
    sayClock(cut.clock, s.write),
    Math.abs(cut.offset) < 0.005
      ? "none"
      : `${s.fine(Math.abs(cut.offset))} ${cut.offset > 0 ? "ccw" : "cw"}`,
    fromSawn(s, hole.fromSawn),
  ]);
  const said = paragraph(
    [0, 0],
    width,
    "Crowded: made exactly by one cut for each host, in any order. ccw and cw: the side 90° counter-clockwise or clockwise of that cut's heel, looking at the cut end.",
    { size: 2.3 },
  );
  const rowsPlaced = table([0, said.height + 1], columns, rows, 2.2);
  return { marks: [...said.marks, ...rowsPlaced.marks], height: said.height + 1 + rowsPlaced.height };
}

/** Where the rim passes its hosts by. */
function missed(s: Subject, { cope }: EndOf, width: number): Block[] {
  if (cope.misses.length === 0) return [];
  return [
    words(
      `Misses: the rim passes ${cope.onto.join(", ")} without touching from ${sayArcs(joinedArcs(cope.misses), s.write)} (from the zero line, counter-clockwise looking at the cut end). The joint stays open there.`,
      width,
      { bold: true },
    ),
  ];
}

/** How the cut fits: gap, and the way from a first, shallower cut to the final one. */
function fitted(s: Subject, e: EndOf, width: number): Block[] {
  const { notch } = e;
  const blocks: Block[] = [];
  const { notcher, shop } = s.plan.job;
  const saw = notch?.saw;
  if (!saw) return blocks;
  const said = notch.exact
    ? "Gap: none; this cut seats on every line round the tube."
    : notch.flush
      ? `Gap: none where the rim meets the host; it stays open at ${sayArcs(joinedArcs(notch.open), s.write)}.`
      : `Gap round the joint as sawn, unfiled (the bar then stands off ${s.fine(saw.standsOff)}); filed where it touches, at most ${s.fine(saw.most)} is left to take off at ${s.write.angle(saw.mostAt)}.`;
  blocks.push({ ...words(said, width, { size: 2.3 }), keep: !notch.flush });
  if (!notch.flush) blocks.push(gapPlot(s, saw.gaps, saw.gapAt, notcher.wrapBeyond ?? shop.gap, width));
  if (notch.steps) blocks.push(stepTable(s, notch, width));
  return blocks;
}

/** How the two ends stand to each other. */
function standing(s: Subject, a: EndOf, b: EndOf, width: number): Block[] {
  const angle = standsTo(s, a, b);
  if (angle === undefined) return [];
  const { tube } = s.bar.bar;
  const size = Math.abs(deg(angle));
  const carried = s.bar.bar.centreline.bends.length > 0 ? ", carried along the bends without twist" : "";
  const said =
    size < 0.05
      ? `End B's ${sideName(b)} stands in line with end A's ${sideName(a)}${carried}.`
      : 180 - size < 0.05
        ? `End B's ${sideName(b)} stands opposite end A's ${sideName(a)}${carried}.`
        : `End B's ${sideName(b)} stands ${s.write.angle(size)} ${angle > 0 ? "clockwise" : "counter-clockwise"} of end A's ${sideName(a)}, looking from A toward B (${roundTube(angle, tube, s.write)} round the tube)${carried}.`;
  return [heading("The two ends to each other", width), words(said, width, { size: 3 })];
}
