import { type Job, SET_UP } from "../core/job/index.ts";
import { doorGapPairs } from "../core/survey/index.ts";
import { shopWriterFor } from "../core/units/index.ts";
import { line, type Mark, rectangle, table, text } from "../draw/index.ts";
import { SET_UP_PAGE as SAYS, sayDoorGap } from "../words/index.ts";
import { type Block, heading } from "./flow.ts";

/** A box to be ticked, with what it says behind it; ticked where it is done. */
export const tickBox = ([x, y]: readonly [number, number], word: string, isDone = false): Mark[] => [
  rectangle({ x, y: y - 3, width: 3.4, height: 3.4 }, "visible"),
  ...(isDone
    ? [
        line([x + 0.6, y - 1.4], [x + 1.5, y - 0.4], "visible"),
        line([x + 1.5, y - 0.4], [x + 3, y - 2.6], "visible"),
      ]
    : []),
  text([x + 5, y], word, 2.4),
];

/** Rows left empty for gaps that are not in the job yet. */
const EMPTY = 4;

/**
 * Before anything is measured: what is out of the car and how it is supported, ticked where the job says that it is done,
 * and gaps round doors before and after, with room for more.
 */
export function setUpBlocks({ setUp, show }: Pick<Job, "setUp" | "show">, width: number): Block[] {
  const done = setUp?.done ?? [];
  const pitch = 6;
  const marks = SET_UP.flatMap((step, i) =>
    tickBox([(i % 2) * (width / 2), 4 + Math.floor(i / 2) * pitch], SAYS.done[step], done.includes(step)),
  );
  const ticks: Block = { marks, height: Math.ceil(SET_UP.length / 2) * pitch };
  const { fine } = shopWriterFor(show);
  const rows = doorGapPairs(setUp?.doorGaps ?? []).map(({ at, before, after, change, moved }) => [
    at,
    before ? fine(before.gap) : "",
    after ? fine(after.gap) : "",
    change === undefined ? "" : sayDoorGap(change, moved, fine),
  ]);
  const blank = Array.from({ length: Math.max(1, EMPTY - rows.length) }, () => ["", "", "", ""]);
  const columns = [
    { title: SAYS.at, width: width * 0.4 },
    { title: SAYS.before, width: width * 0.15 },
    { title: SAYS.after, width: width * 0.15 },
    { title: SAYS.change, width: width * 0.3 },
  ];
  return [
    heading(SAYS.title, width),
    ticks,
    heading(SAYS.gaps, width),
    table([0, 0], columns, [...rows, ...blank], 2.4),
  ];
}
