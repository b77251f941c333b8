import { useMemo } from "react";
import { useLook } from "./use-look.ts";

/** From the front left, over the sill: the job does not hold where the fitter is. */
const FROM = { az: 38, el: 22 };

/** The cage as it is when the bar in hand goes in: what comes after it in the row is not drawn. */
export function useStanding(inHand: string | null) {
  const [{ row }] = useLook();
  return useMemo(() => {
    const at = row.findIndex((t) => t.id === inHand);
    const hidden = new Set(at < 0 ? [] : row.slice(at + 1).map((t) => t.id));
    return { now: { hidden }, first: { hidden: new Set<string>() }, from: FROM };
  }, [row, inHand]);
}
