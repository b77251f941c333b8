import { useEffect, useState } from "react";
import type { CardRequest, SeenPrint } from "../model/compute/index.ts";
import { useApp, useAppItself } from "../model/state/index.ts";

export interface Preview {
  /** The last pages that were drawn, also while others are being drawn. */
  readonly seen?: SeenPrint;
  readonly isDrawing: boolean;
  readonly fault?: string;
}

/** The pages of a print, drawn beside the page; another choice, or another state of the job, ends what is being drawn. */
export function usePreview(request: CardRequest): Preview {
  const { computer } = useAppItself();
  const computed = useApp((s) => s.results.document);
  const [state, setState] = useState<Preview>({ isDrawing: true });
  const key = JSON.stringify(request);
  // biome-ignore lint/correctness/useExhaustiveDependencies: the request by what it says, the plan by what it was computed of
  useEffect(() => {
    let isOver = false;
    setState(({ seen }) => ({ isDrawing: true, ...(seen ? { seen } : {}) }));
    computer.preview(request).then(
      (seen) => {
        if (!isOver && seen) setState({ seen, isDrawing: false });
      },
      (error: unknown) => {
        const fault = error instanceof Error ? error.message : String(error);
        if (!isOver) setState({ isDrawing: false, fault });
      },
    );
    return () => {
      isOver = true;
    };
  }, [computer, key, computed]);
  return state;
}
