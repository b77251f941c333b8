import { joinedArcs, type Notch, type SawCut, type SawFit } from "../core/cope/index.ts";
import { deg, wrapPi } from "../core/numeric/index.ts";
import { group, type Mark, type Paper, paragraph, rectangle, table } from "../draw/index.ts";
import {
  AS_MADE,
  CROWD,
  cautionOn,
  NOTCHER_CARD,
  roundTube,
  sayArcs,
  sayClock,
  sayEnds,
  sayGap,
  sayHalfLine,
  sayHole,
  sayMisses,
  sayRoughOut,
  sayTooWide,
  sayUseWrap,
  sayZeroLine,
  TRUE_SIZE,
  whyNoSaw,
  wrapSteps,
} from "../words/index.ts";
import { dangerBlocks, findingBlocks, fromBlocks } from "./blocks.ts";
import { type EndOf, endOf, sideName, turnOfEnds } from "./ends.ts";
import { type Block, figure, flow, heading, words } from "./flow.ts";
import { gapPlot } from "./gap-plot.ts";
import type { Laid } from "./laid.ts";
import { changedBlocks, notchRecord } from "./made-record.ts";
import { fromSawn, stepTable } from "./step-table.ts";
import { barFields, type Subject, sayOnto } from "./subject.ts";
import { END_VIEW, endView } from "./tube-end.ts";

const ENDS = ["A", "B"] as const;

/** Findings that the banner over an end says. */
const BANNER: ReadonlySet<string> = new Set(["notch-gap", "notch-no-saw", "notch-no-cut"]);

/** What the notcher needs of both ends of one bar. */
export function notcherSheets(s: Subject, paper: Paper): Laid[] {
  const { A, B } = s.made?.notched ?? {};
  if (A && B) return recordSheets(s, paper);
  const card = { title: NOTCHER_CARD.title(s.label), fields: barFields(s), note: cautionOn("notcher card") };
  const [a, b] = [endOf(s, "A"), endOf(s, "B")];
  return flow(paper, card, ({ width }) => [
    ...dangerBlocks(s, width),
    ...changedBlocks(s, width),
    words(NOTCHER_CARD.heelAndToe, width),
    ...endBlocks(s, a, width),
    ...endBlocks(s, b, width),
    ...againstEachOther(s, a, b, width),
    ...findingBlocks(
      // what the banner over an end says is not said twice
      [a, b]
        .filter(({ end }) => !s.made?.notched[end])
        .flatMap((e) => [
          ...s.bar.copes[e.end].findings,
          ...(e.notch?.findings ?? []).filter((f) => !BANNER.has(f.code)),
        ]),
      s,
      width,
    ),
    ...fromBlocks(s, width),
  ]);
}

/** Both ends are notched: how, and nothing to do again. */
function recordSheets(s: Subject, paper: Paper): Laid[] {
  const card = {
    title: AS_MADE.record.notcher(s.label),
    fields: barFields(s),
    note: cautionOn("made record"),
  };
  return flow(paper, card, ({ width }) => [
    ...dangerBlocks(s, width),
    ...changedBlocks(s, width),
    ...ENDS.flatMap((end) => [
      words(AS_MADE.head.notched(end), width, { size: 3, bold: true }),
      ...notchRecord(s, end, width),
    ]),
  ]);
}

function endBlocks(s: Subject, e: EndOf, width: number): Block[] {
  if (s.made?.notched[e.end])
    return [
      words(AS_MADE.head.notched(e.end), width, { size: 3, bold: true }),
      ...notchRecord(s, e.end, width),
    ];
  const { cope, notch } = e;
  const head = heading(
    cope.kind === "square" ? NOTCHER_CARD.endSquare(e.end) : NOTCHER_CARD.endOnto(e.end, sayOnto(s, e.end)),
    width,
  );
  if (cope.kind !== "on") return [head, flat(s, e, width)];
  const blocks = [
    head,
    ...banner(s, e, width),
    ...(notch?.cuts.length ? [crowd(s, notch, width)] : []),
    ...(notch?.useWrap ? [byWrap(e, width)] : []),
    ...(notch?.useWrap && notch.saw ? [roughOut(s, notch.saw, width)] : []),
    settings(s, e, width),
    ...missed(s, e, width),
    ...(notch?.useWrap ? [] : fitted(s, e, width)),
  ];
  // one end on one sheet, if it fits
  return blocks.map((block, i) => ({ ...block, keep: i < blocks.length - 1 }));
}

/** Said first and large where no hole saw cut will do. */
function banner(s: Subject, { notch }: EndOf, width: number): Block[] {
  if (!notch?.useWrap) return [];
  const { notcher, shop } = s.plan.job;
  const { saw } = notch;
  const hasCuts = notch.cuts.length > 0;
  const accepted = notcher.wrapBeyond ?? shop.gap;
  const why = saw ? sayTooWide(saw, accepted, hasCuts, s.write) : whyNoSaw(notch, s.size);
  const said = paragraph([2, 1], width - 4, sayUseWrap(why, hasCuts), { size: 3, bold: true });
  return [
    {
      marks: [rectangle({ x: 0, y: 0, width, height: said.height + 2 }, "visible"), ...said.marks],
      height: said.height + 2,
    },
  ];
}

/** The wrap's own steps. */
function byWrap({ cope }: EndOf, width: number): Block {
  const steps = wrapSteps(TRUE_SIZE, sayZeroLine(cope.zeroLine));
  let y = 0;
  const marks = steps.flatMap((says, i) => {
    const said = paragraph([0, y], width, `${i + 1}. ${says}`, { size: 2.5 });
    y += said.height + 0.5;
    return said.marks;
  });
  return { marks, height: y };
}

/** Over the hole saw's figures where the wrap is the method. */
const roughOut = (s: Subject, saw: SawFit, width: number): Block =>
  words(sayRoughOut(s.fine(saw.most), s.write.angle(saw.mostAt)), width, { bold: true });

/** A flat cut: square, or leaning off square on a plate. */
function flat(s: Subject, e: EndOf, width: number): Block {
  const { cope, heel } = e;
  const room = width - END_VIEW.width - 4;
  const figures =
    heel === undefined
      ? [figure([0, 0], room, NOTCHER_CARD.sawAngle, NOTCHER_CARD.square, NOTCHER_CARD.squareBelow, 8)]
      : [
          figure(
            [0, 0],
            room * 0.45,
            NOTCHER_CARD.sawAngle,
            s.write.angle(deg(e.tilt)),
            NOTCHER_CARD.offSquare,
            8,
          ),
          figure(
            [room * 0.5, 0],
            room * 0.5,
            NOTCHER_CARD.longClock,
            clockFigure(s, heel),
            NOTCHER_CARD.longBelow(clockWay(heel), roundTube(heel, s.bar.bar.tube, s.write)),
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
          NOTCHER_CARD.flat(
            s.write.length(cope.greatest - cope.least),
            s.write.length(s.bar.bend.trim[e.end]),
          ),
          { size: 2.3 },
        ).marks;
  const view = endView(cope, sayZero(e), heel === undefined ? {} : { long: deg(heel) });
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

const zeroWords = (e: EndOf): string => NOTCHER_CARD.zero(sayZero(e), sayHalfLine(e.cope.zeroLine));

const clockFigure = (s: Subject, phi: number): string => s.write.angle(Math.abs(deg(wrapPi(phi))));

const clockWay = (phi: number): string => NOTCHER_CARD.way(wrapPi(phi) >= 0);

/** Hole saw, angle, offset, hole centre and clock; the tube end beside them. */
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
  if (notch?.saw && notch.hole) {
    const { exact, flush, hole } = notch;
    const { cut } = notch.saw;
    const half = room / 2;
    const rowOne = [
      figure(
        [0, y],
        half - 3,
        NOTCHER_CARD.saw,
        s.size(2 * cut.radius),
        NOTCHER_CARD.sawBelow[exact ? "exact" : flush ? "flush" : "nearest"],
        7,
      ),
      figure([half, y], half, NOTCHER_CARD.angle, s.write.angle(deg(cut.notch)), NOTCHER_CARD.offSquare, 7),
    ];
    y += Math.max(...rowOne.map((f) => f.height)) + 2;
    const rowTwo = [
      figure([0, y], half - 3, NOTCHER_CARD.clock, clockFigure(s, cut.clock), clockBelow(s, cut), 6),
      figure(
        [half, y],
        half,
        NOTCHER_CARD.hole,
        s.write.length(Math.abs(hole.beyondLong)),
        holeBelow(s, hole),
        6,
      ),
    ];
    y += Math.max(...rowTwo.map((f) => f.height)) + 2;
    const side = offsetWords(s, cut);
    const last = figure([0, y], room, NOTCHER_CARD.offset, side.value, side.below, 4);
    y += last.height + 1;
    for (const f of [...rowOne, ...rowTwo, last]) marks.push(...f.marks);
  } else {
    const none = figure([0, y], room, NOTCHER_CARD.noCut, NOTCHER_CARD.useWrap, whyNoSaw(notch, s.size), 7);
    marks.push(...none.marks);
    y += none.height + 1;
  }
  const zero = paragraph([0, y], room, zeroWords(e), { size: 2.3 });
  marks.push(...zero.marks);
  return { marks, height: Math.max(view.height, y + zero.height) };
}

function clockBelow(s: Subject, cut: SawCut): string {
  const round = roundTube(cut.clock, s.bar.bar.tube, s.write);
  return NOTCHER_CARD.clockBelow(clockWay(cut.clock), round, cut.notch === 0);
}

interface Hole {
  readonly beyondLong: number;
  readonly fromBend?: number;
  readonly fromSawn: number;
}

function holeBelow(s: Subject, hole: Hole): string {
  return sayHole({
    beyond: Math.abs(hole.beyondLong) < 0.005 ? "on" : hole.beyondLong > 0 ? "out" : "in",
    sawn: s.write.length(Math.abs(hole.fromSawn)),
    offTube: hole.fromSawn < 0,
    bend: hole.fromBend === undefined ? undefined : s.write.length(hole.fromBend),
  });
}

function offsetWords(s: Subject, cut: SawCut): { readonly value: string; readonly below: string } {
  if (Math.abs(cut.offset) < 0.005)
    return { value: NOTCHER_CARD.noOffset, below: NOTCHER_CARD.noOffsetBelow };
  const way = cut.offset > 0 ? 1 : -1;
  const side = sayClock(cut.clock + (way * Math.PI) / 2, s.write);
  return { value: s.fine(Math.abs(cut.offset)), below: NOTCHER_CARD.offsetBelow(way > 0, side) };
}

/** Widths of the columns, as shares of the table's. */
const CROWD_WIDTHS = [0.22, 0.12, 0.12, 0.24, 0.12, 0.18];

/** A crowded end on straight hosts: one exact cut for each. */
function crowd(s: Subject, notch: Notch, width: number): Block {
  const columns = CROWD.columns.map((title, i) => ({
    title,
    width: width * (CROWD_WIDTHS[i] ?? 0),
    ...(i === 0 || i === 3 ? {} : { anchor: "end" as const }),
  }));
  const rows = notch.cuts.map(({ host, cut, hole }) => [
    s.called(host),
    s.size(2 * cut.radius),
    s.write.angle(deg(cut.notch)),
    sayClock(cut.clock, s.write),
    Math.abs(cut.offset) < 0.005
      ? CROWD.noOffset
      : CROWD.offset(s.fine(Math.abs(cut.offset)), cut.offset > 0),
    fromSawn(s, hole.fromSawn),
  ]);
  const said = paragraph([0, 0], width, CROWD.use, { size: 2.3 });
  const rowsPlaced = table([0, said.height + 1], columns, rows, 2.2);
  return { marks: [...said.marks, ...rowsPlaced.marks], height: said.height + 1 + rowsPlaced.height };
}

/** Where the rim passes its hosts by. */
function missed(s: Subject, { cope }: EndOf, width: number): Block[] {
  if (cope.misses.length === 0) return [];
  const hosts = cope.onto.map(s.called).join(", ");
  return [words(sayMisses(sayArcs(joinedArcs(cope.misses), s.write), hosts), width, { bold: true })];
}

/** How the cut fits: gap, and the way from a first, shallower cut to the final one. */
function fitted(s: Subject, e: EndOf, width: number): Block[] {
  const { notch } = e;
  const blocks: Block[] = [];
  const { notcher, shop } = s.plan.job;
  const saw = notch?.saw;
  if (!saw) return blocks;
  const said = notch.exact
    ? sayGap.exact
    : notch.flush
      ? sayGap.flush(sayArcs(joinedArcs(notch.open), s.write))
      : sayGap.open(s.fine(saw.standsOff), s.fine(saw.most), s.write.angle(saw.mostAt));
  blocks.push({ ...words(said, width, { size: 2.3 }), keep: !notch.flush });
  if (!notch.flush) blocks.push(gapPlot(s, saw.gaps, saw.gapAt, notcher.wrapBeyond ?? shop.gap, width));
  if (notch.steps) blocks.push(stepTable(s, notch, notch.steps, width));
  return blocks;
}

/** How the two ends are turned to each other. */
function againstEachOther(s: Subject, a: EndOf, b: EndOf, width: number): Block[] {
  const angle = turnOfEnds(s, a, b);
  if (angle === undefined) return [];
  const size = Math.abs(deg(angle));
  const turned =
    size < 0.05
      ? "in line"
      : 180 - size < 0.05
        ? "opposite"
        : {
            by: s.write.angle(size),
            way: angle > 0 ? "clockwise" : "counter-clockwise",
            round: roundTube(angle, s.bar.bar.tube, s.write),
          };
  const bent = s.bar.bar.centreline.bends.length > 0;
  const said = sayEnds({ a: sideName(a), b: sideName(b), turned, bent });
  return [heading(NOTCHER_CARD.ends, width), words(said, width, { size: 3 })];
}
