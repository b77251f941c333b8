import { useEffect, useState } from "react";
import type { Notch } from "../../core/cope/index.ts";
import type { End } from "../../core/job/index.ts";
import type { BarResult, Computer, Results } from "../model/compute/index.ts";

/** The notches of both ends, asked for beside the page; undefined until they are there. */
export interface Notches {
  readonly of: BarResult;
  readonly A: Notch | undefined;
  readonly B: Notch | undefined;
}

export function useNotches(
  computer: Computer,
  results: Results,
  bar: BarResult | undefined,
): Notches | undefined {
  const [notches, setNotches] = useState<Notches>();
  // The notcher's settings stand in the job beside the bar, so a new document is asked again.
  // biome-ignore lint/correctness/useExhaustiveDependencies: see above
  useEffect(() => {
    if (!bar) return;
    let isOver = false;
    const ask = (end: End): Promise<Notch | undefined> => computer.notch({ bar: bar.id, end });
    void Promise.all([ask("A"), ask("B")]).then(([A, B]) => {
      if (!isOver) setNotches({ of: bar, A, B });
    });
    return () => {
      isOver = true;
    };
  }, [computer, bar, results.document]);
  return notches?.of === bar ? notches : undefined;
}
