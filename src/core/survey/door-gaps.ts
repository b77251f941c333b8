import { type Finding, mm, text } from "../findings/index.ts";
import type { DoorGap, Job } from "../job/types.ts";

/** What one reading of a door gap is good for (mm, one standard deviation), by drill shank or taper: common practice, no source. */
export const READ_TO = 0.5;

/** 95 of 100 differences of two readings are within so many standard deviations of one: 1.96·√2 (normal distribution). */
const OF_TWO = 1.96 * Math.SQRT2;

/** By so much two readings of a gap that did not change may differ (mm). */
export const DOOR_GAP = OF_TWO * READ_TO;

/** A gap read before and after; `index` of each in the job's list. */
export interface DoorGapPair {
  readonly at: string;
  readonly before?: { readonly index: number; readonly gap: number };
  readonly after?: { readonly index: number; readonly gap: number };
  /** After less before (mm); absent while one is missing. */
  readonly change?: number;
  /** Whether that is more than two readings differ by. */
  readonly moved: boolean;
}

/** The places at which gaps were read, in their order, each with its last readings that count. */
export function doorGapPairs(gaps: readonly DoorGap[]): readonly DoorGapPair[] {
  const places = [...new Set(gaps.map((g) => g.at))];
  return places.map((at) => {
    const last = (when: DoorGap["when"]) => {
      const index = gaps.findLastIndex((g) => g.at === at && g.when === when && g.struck !== true);
      const found = gaps[index];
      return found && { index, gap: found.gap };
    };
    const [before, after] = [last("before"), last("after")];
    const change = before && after ? after.gap - before.gap : undefined;
    return {
      at,
      ...(before ? { before } : {}),
      ...(after ? { after } : {}),
      ...(change === undefined ? {} : { change }),
      moved: change !== undefined && Math.abs(change) > DOOR_GAP,
    };
  });
}

/** Gaps that changed by more than what their readings are good for: the shell moved. */
export const doorGapFindings = ({ setUp }: Pick<Job, "setUp">): readonly Finding[] =>
  doorGapPairs(setUp?.doorGaps ?? []).flatMap(({ at, before, after, moved }): Finding[] =>
    moved && before && after
      ? [
          {
            code: "door-gap-changed",
            place: `setUp.doorGaps[${after.index}]`,
            values: { at: text(at), before: mm(before.gap), after: mm(after.gap), allowed: mm(DOOR_GAP) },
          },
        ]
      : [],
  );
