import type { AsMade } from "../../core/plan/index.ts";
import type { BarResult } from "../model/compute/index.ts";
import { useAnswer } from "../model/state/index.ts";

/** What is done of a bar, and whether its card in the shop holds. */
export interface MadeNow {
  readonly made?: AsMade;
  readonly old?: { readonly had: number; readonly now: number };
}

/** Asked for beside the page; undefined until it is there, so that no step that is done is shown as to be done. */
export function useMade(result: BarResult | undefined): MadeNow | undefined {
  const answer = useAnswer("asMade", result && { bar: result.id })?.answer;
  if (!result) return undefined;
  const { progress } = result;
  if (progress === "laid out") return answer?.old ? { old: answer.old } : {};
  const made = answer?.made;
  if (!answer || !made) return undefined;
  const isBent = progress !== "sawn" && result.bend.bends.length > 0;
  // an answer from before a step was marked done lacks that step
  if (isBent && !made.bent) return undefined;
  const isNotched = progress !== "sawn" && progress !== "bent";
  return isNotched && !(made.notched.A && made.notched.B) ? undefined : answer;
}

/** The card that a step was made to, where the bar's card is another one now. */
export const otherCard = (card: number | undefined, now: number): number | undefined =>
  card === now ? undefined : card;
