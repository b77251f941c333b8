import type { BarResult, Results } from "../compute/index.ts";

/** One bar that an edit changed: its blank before and after (mm), and what else became of it. */
export interface Moved {
  readonly id: string;
  readonly label: string;
  readonly before?: number;
  readonly after?: number;
  /** "blank 3.2 mm longer" is said by the caller; this is what the numbers alone do not say. */
  readonly how: "changed" | "moved" | "new" | "gone" | "without";
}

export const EMPTY_MOVES: readonly Moved[] = [];

/** Blanks nearer than this are the same to a tape (mm). */
const SAME_BLANK = 0.005;

/**
 * What an edit changed, the bars whose blank changed most first. "moved": the bar or its ends changed, the blank did
 * not; "without": it has no geometry any more.
 */
export function movedBetween(before: Results, after: Results): readonly Moved[] {
  const ids = new Set([...before.bars.keys(), ...after.bars.keys()]);
  const moved: Moved[] = [];
  for (const id of ids) {
    const [was, is] = [before.bars.get(id), after.bars.get(id)];
    if (was === is) continue;
    if (was && is && sameBut(was, is)) continue;
    const without = after.without.find((bar) => bar.id === id);
    const how = !was
      ? "new"
      : !is
        ? without
          ? "without"
          : "gone"
        : change(was, is) >= SAME_BLANK
          ? "changed"
          : "moved";
    moved.push({
      id,
      label: is?.label ?? without?.label ?? was!.label,
      ...(was ? { before: was.bend.blank } : {}),
      ...(is ? { after: is.bend.blank } : {}),
      how,
    });
  }
  const size = (m: Moved): number =>
    m.before === undefined || m.after === undefined ? Infinity : Math.abs(m.after - m.before);
  return moved.sort((a, b) => size(b) - size(a));
}

const change = (was: BarResult, is: BarResult): number => Math.abs(is.bend.blank - was.bend.blank);

/** A bar that differs in nothing but its name or how far it has come did not move. */
const sameBut = (was: BarResult, is: BarResult): boolean => was.bend === is.bend && was.copes === is.copes;
