import { turnsOf } from "../core/bend/index.ts";
import { deg } from "../core/numeric/index.ts";
import { group, line, type Mark, type Paper, paragraph, rectangle, text } from "../draw/index.ts";
import { cautionOn, STRIP, sayTurn, TOO_MANY_SHEETS } from "../words/index.ts";
import { type Block, flow } from "./flow.ts";
import type { Laid } from "./laid.ts";
import { balloon, feedMarks } from "./marked-tube.ts";
import { leftOut, MOST_SHEETS, type Part } from "./sheet-limit.ts";
import { barLine, type Subject, shortFields } from "./subject.ts";

/** Height of the strip, mm. */
const HIGH = 28;
/** A piece with the line under it. */
const PIECE = HIGH + 4;
/** Words stand this wide beside their mark, mm; no join runs through them. */
const WORDS = 62;
/** Two pieces share this much on either side of their join, mm. */
const LAP = 6;
/** Paper past the end of the last bend, mm. */
const PAST = 15;
/** A tube no longer than this is marked with a tape (mm). */
const SHORT = 300;

export const needsStrip = (s: Subject): boolean =>
  !s.made?.bent &&
  s.bar.bend.bends.length > 0 &&
  s.bar.bend.blank + s.bar.bend.trim.A + s.bar.bend.trim.B > SHORT;

interface StripMark {
  readonly n: number;
  readonly mark: number;
  /** The tube that the bend takes up, from the sawn end fed first. */
  readonly begins: number;
  readonly ends: number;
  readonly words: string;
}

/** A strip with every mark at true size, to be taped along the tube from the end fed first; in pieces, with joins. */
export function stripPart(s: Subject, paper: Paper, room = MOST_SHEETS): Part {
  const marks = stripMarks(s);
  const card = {
    title: STRIP.title(s.label),
    fields: shortFields(s),
    note: `${STRIP.use(s.bar.bar.fromEnd)} ${cautionOn("mark strip")}`,
    isTrueSize: true,
    lie: "landscape" as const,
  };
  const last = marks.at(-1);
  if (!last) throw new Error("a straight bar needs no mark strip");
  const total = last.ends + PAST;
  const stripes = marks.map((m) => m.mark);
  const drawn = (make: (cuts: readonly number[]) => readonly Block[]): Laid[] =>
    flow(paper, card, ({ width }) => make(pieces(stripes, total, width - 2 * LAP)));
  const sheets = drawn((cuts) => cuts.slice(1).map(() => ({ marks: [], height: PIECE }))).length;
  return sheets > room
    ? leftOut(s, paper, card, { ...TOO_MANY_SHEETS.strip, sheets })
    : { sheets: drawn((cuts) => cuts.slice(1).map((_, i) => piece(s, marks, cuts, i))), findings: [] };
}

/** No fewer sheets than this carry a strip so long: its pieces would fill them from edge to edge. */
export const stripLeast = (length: number, paper: Paper): number =>
  Math.ceil((length * HIGH) / (paper.width * paper.height));

function stripMarks(s: Subject): StripMark[] {
  const turns = turnsOf(s.bar.bar, s.plan.job.bender.turnSide);
  const shift = s.bar.bar.die?.mark ?? 0;
  return feedMarks(s).map(({ n, mark, arc, bend }, i) => {
    const wanted = s.write.angle(deg(bend.angle));
    const set = bend.set ? STRIP.set(s.write.angle(deg(bend.set.set)), wanted) : STRIP.noSet(wanted);
    const turn = turns[i - 1];
    const how = turn ? sayTurn(turn, s.write) : STRIP.first;
    const begins = mark - shift;
    return { n, mark, begins, ends: begins + arc, words: `${set}\n${how}` };
  });
}

/** Where the strip is cut into pieces no longer than `room`: 0, …, total; never through a mark or its words. */
export function pieces(marks: readonly number[], total: number, room: number): number[] {
  const cuts = [0];
  for (let from = 0; total - from > room; ) {
    let to = from + room;
    // back before a mark whose words the join would run through
    for (const mark of [...marks].reverse()) {
      const before = mark - LAP - 5;
      if (to > before && to < mark + WORDS && before > from) to = before;
    }
    cuts.push(to);
    from = to;
  }
  return [...cuts, total];
}

const letter = (i: number): string =>
  String.fromCharCode(65 + (i % 26)) + (i >= 26 ? Math.floor(i / 26) : "");

function piece(s: Subject, all: readonly StripMark[], cuts: readonly number[], i: number): Block {
  const [from, to] = cuts.slice(i, i + 2);
  if (from === undefined || to === undefined) throw new Error(`the strip has no piece ${i + 1}`);
  const [first, last] = [i === 0, i === cuts.length - 2];
  const left = from - (first ? 0 : LAP);
  const right = to + (last ? 0 : LAP);
  const x = (mm: number): number => mm - left;
  const marks: Mark[] = [rectangle({ x: 0, y: 0, width: right - left, height: HIGH }, "narrow")];
  marks.push(...rule(s, left, right, x));
  const clip = { x: 0, y: 0, width: right - left, height: HIGH };
  const shades = all.map((m) =>
    rectangle({ x: x(m.begins), y: HIGH - 6.2, width: m.ends - m.begins, height: 2 }, undefined, "shade"),
  );
  marks.unshift(group("taken up", shades, { clip }));
  for (const m of all) {
    if (m.mark < left || m.mark > right) continue;
    marks.push(
      line([x(m.mark), 0], [x(m.mark), HIGH], "visible"),
      ...balloon([x(m.mark) + 4.6, 4.6], m.n, 3.4),
    );
    marks.push(text([x(m.mark) + 9.5, 6.2], s.write.length(m.mark), 3.5, { bold: true }));
    marks.push(...paragraph([x(m.mark) + 1.5, 8.2], WORDS - 4, m.words, { size: 1.9 }).marks);
  }
  for (const [cut, name, shown] of [
    [from, letter(i - 1), !first],
    [to, letter(i), !last],
  ] as const) {
    if (!shown) continue;
    const side = cut === from ? 1 : -1;
    marks.push(line([x(cut), 0], [x(cut), HIGH], "join"));
    marks.push(
      text([x(cut) + side * 1.2, HIGH - 9], name, 3, { anchor: side > 0 ? "start" : "end", bold: true }),
    );
  }
  if (first) marks.push(line([0, 0], [0, HIGH], "visible"));
  const title = STRIP.piece(barLine(s), i + 1, cuts.length - 1, first ? s.bar.bar.fromEnd : undefined);
  return { marks: [...marks, text([0, HIGH + 2.8], title, 2)], height: PIECE };
}

/** A rule along the lower edge: centimetres, or inches. */
function rule(s: Subject, left: number, right: number, x: (mm: number) => number): Mark[] {
  const inch = s.plan.job.show.length === "in";
  const step = inch ? 25.4 / 2 : 10;
  const named = inch ? 2 : 10;
  const marks: Mark[] = [];
  for (let k = Math.ceil(left / step - 1e-9); k * step <= right + 1e-9; k++) {
    const at = x(k * step);
    const long = k % named === 0;
    marks.push(line([at, HIGH], [at, HIGH - (long ? 3 : 1.8)], "narrow"));
    if (long && k > 0 && at > 6 && at < x(right) - 6)
      marks.push(text([at - 0.8, HIGH - 2.4], `${inch ? k / 2 : k * 10}`, 1.8, { anchor: "end" }));
  }
  return marks;
}
