import { answerSays, type GoesInSays, hasForce } from "./says.ts";
import { useFitWords } from "./use-fit-words.ts";
import { useLook } from "./use-look.ts";

/** "Will it go in?" of one bar, in the order as it is; `look` where nobody looked yet. */
export function useGoesIn(
  id: string,
): GoesInSays & { readonly look?: () => void; readonly isLooking: boolean; readonly force: boolean } {
  const [{ row, run }, looking] = useLook();
  const words = useFitWords();
  const tag = row.find((t) => t.id === id);
  const waits = tag?.state === "unseen" && run === undefined;
  return {
    ...answerSays(tag, words),
    force: tag !== undefined && hasForce([tag]),
    isLooking: tag?.state === "unseen" && run !== undefined,
    ...(waits ? { look: () => looking.lookAt(id) } : {}),
  };
}

/** Whether a force is shown of the bar in hand. */
export function useForce(id: string | null): boolean {
  const [{ row }] = useLook();
  return hasForce(row.filter((t) => t.id === id));
}
