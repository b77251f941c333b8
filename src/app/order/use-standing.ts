import { useMemo } from "react";
import { useLook } from "./use-look.ts";

/** From the front left, over the sill: nobody has said where the fitter stands. */
const FROM = { az: 38, el: 22 };

/** The cage as it stands when the bar in hand goes in: what hangs behind it in the row is not drawn. */
export function useStanding(inHand: string | null) {
  const [{ row }] = useLook();
  return useMemo(() => {
    const at = row.findIndex((t) => t.id === inHand);
    const hidden = new Set(at < 0 ? [] : row.slice(at + 1).map((t) => t.id));
    return { now: { hidden }, first: { hidden: new Set<string>() }, from: FROM };
  }, [row, inHand]);
}
