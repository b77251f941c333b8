import { placesOf } from "../../../core/bar/index.ts";
import { dist } from "../../../core/space/index.ts";
import type { BarResult, Results } from "../compute/index.ts";
import type { Did } from "../document/index.ts";

/** One bar that an edit changed: its blank before and after (mm), and what else became of it. */
export interface Moved {
  readonly id: string;
  readonly label: string;
  readonly before?: number;
  readonly after?: number;
  /** How far the end or corner of it that went farthest went (mm), where both have the same number of corners. */
  readonly by?: number;
  /**
   * "changed": the blank is another. "ends": the blank is the same, marks, angles or ends are not. "stands": only where
   * it stands is another, and its cards are as before. "without": it has no geometry any more.
   */
  readonly how: "changed" | "ends" | "stands" | "new" | "gone" | "without";
}

/** What the last edit changed, and what that edit was called. */
export interface Moves {
  readonly name?: string;
  /** The step that did it, or one since that moved nothing: compare with the job's own `did`. */
  readonly of?: Did;
  readonly bars: readonly Moved[];
}

export const EMPTY_MOVES: readonly Moved[] = [];

/** Blanks nearer than this are the same to a tape (mm). */
const SAME_BLANK = 0.005;

/** Places nearer than this are the same (mm): a bar that is computed anew comes out the same to rounding. */
const SAME_PLACE = 0.01;

/** Angles nearer than this are the same to an angle finder (radians). */
const SAME_ANGLE = 1e-4;

/** What an edit changed, the bars whose blank changed most first. */
export function movedBetween(before: Results, after: Results): readonly Moved[] {
  const ids = new Set([...before.bars.keys(), ...after.bars.keys()]);
  const moved: Moved[] = [];
  for (const id of ids) {
    const [was, is] = [before.bars.get(id), after.bars.get(id)];
    if (was === is) continue;
    const by = was && is && wentBy(was, is);
    if (was && is && by !== undefined && by < SAME_PLACE && sameBlank(was, is) && sameCards(was, is))
      continue;
    const without = after.without.find((bar) => bar.id === id);
    const how = !was
      ? "new"
      : !is
        ? without
          ? "without"
          : "gone"
        : !sameBlank(was, is)
          ? "changed"
          : sameCards(was, is)
            ? "stands"
            : "ends";
    moved.push({
      id,
      label: (is ?? without ?? was)?.label ?? id,
      ...(was ? { before: was.bend.blank } : {}),
      ...(is ? { after: is.bend.blank } : {}),
      ...(by === undefined ? {} : { by }),
      how,
    });
  }
  const size = (m: Moved): number =>
    m.before === undefined || m.after === undefined ? Infinity : Math.abs(m.after - m.before);
  return moved.sort((a, b) => size(b) - size(a));
}

const sameBlank = (was: BarResult, is: BarResult): boolean =>
  Math.abs(is.bend.blank - was.bend.blank) < SAME_BLANK;

/** How far the end or corner that went farthest went (mm); undefined where the corners are not the same ones. */
function wentBy({ bar: was }: BarResult, { bar: is }: BarResult): number | undefined {
  const [a, b] = [placesOf(was.centreline), placesOf(is.centreline)];
  return a.length === b.length ? Math.max(...a.map((p, i) => dist(p, b[i] ?? p))) : undefined;
}

/** Whether both are made alike: the same marks, angles and turns, the same curve at both ends. */
function sameCards(was: BarResult, is: BarResult): boolean {
  const [a, b] = [was.bend.bends, is.bend.bends];
  return (
    a.length === b.length &&
    a.every((x, i) => {
      const y = b[i];
      return (
        y !== undefined &&
        near(x.mark, y.mark, SAME_BLANK) &&
        near(x.markB, y.markB, SAME_BLANK) &&
        near(x.angle, y.angle, SAME_ANGLE) &&
        near(x.rotation, y.rotation, SAME_ANGLE) &&
        near(x.set?.set ?? 0, y.set?.set ?? 0, SAME_ANGLE)
      );
    }) &&
    (["A", "B"] as const).every((end) => {
      if (!near(was.bend.trim[end], is.bend.trim[end], SAME_BLANK)) return false;
      const [c, d] = [was.copes[end], is.copes[end]];
      return c.zeroLine === d.zeroLine && alike(c.outer, d.outer) && alike(c.bore, d.bore);
    })
  );
}

const near = (a: number, b: number, same: number): boolean => Math.abs(a - b) < same;
/** Backs of a line that misses are no numbers on both sides. */
const alike = (a: Float64Array, b: Float64Array): boolean =>
  a.every((x, i) => near(x, b[i] ?? Number.NaN, SAME_BLANK) || (Number.isNaN(x) && Number.isNaN(b[i])));
