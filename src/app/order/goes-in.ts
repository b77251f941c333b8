import { useLook } from "./use-look.ts";
import { useFitWords } from "./use-words.ts";
import { answerSays, type GoesInSays } from "./words.ts";

/** "Will it go in?" of one bar, in the order as it is; `look` where nobody looked yet. */
export function useGoesIn(
  id: string,
): GoesInSays & { readonly look?: () => void; readonly isLooking: boolean } {
  const [{ row, run }, looking] = useLook();
  const words = useFitWords();
  const tag = row.find((t) => t.id === id);
  const waits = tag?.state === "unseen" && run === undefined;
  return {
    ...answerSays(tag, words),
    isLooking: tag?.state === "unseen" && run !== undefined,
    ...(waits ? { look: () => looking.lookAt(id) } : {}),
  };
}
