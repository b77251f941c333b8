import { deg } from "../../../core/numeric/index.ts";
import type { CheckSize, judgeCheck } from "../../../core/plan/index.ts";
import { CHECK_SIZES, IDS, saySlip, USUAL, written } from "../../../words/index.ts";
import type { Write } from "../../kit/index.ts";

/** A check size's value, or its ±, with its unit. */
export const writeSize = ({ what }: CheckSize, value: number, write: Write): string =>
  what === "angle" ? write.angle(deg(value)) : write.length(value);

/** Between what tape or finder is laid. */
export const sayCheckWords = ({ across }: CheckSize, bend: number, write: Write): string =>
  across ? written(across, write, IDS) : CHECK_SIZES.finder(bend);

/** What was read, held against the plan; `isOff`: to be looked at. */
export function sayJudged(
  size: CheckSize,
  judged: NonNullable<ReturnType<typeof judgeCheck>>,
  write: Write,
): { readonly says: string; readonly isOff: boolean } {
  if (judged.slip)
    return {
      says: CHECK_SIZES.slip(writeSize(size, size.value, write), saySlip(judged.slip.slip)),
      isOff: true,
    };
  const sd = writeSize(size, size.sd ?? 0, write);
  if (judged.times <= 1) return { says: CHECK_SIZES.within(sd), isOff: false };
  const kind = size.what === "angle" ? "angle" : size.what === "off-table" ? "height" : "length";
  const off = CHECK_SIZES.offBy(writeSize(size, Math.abs(judged.off), write), kind, judged.off > 0);
  return judged.times <= USUAL
    ? { says: CHECK_SIZES.usual(off), isOff: false }
    : { says: CHECK_SIZES.off(off), isOff: true };
}
