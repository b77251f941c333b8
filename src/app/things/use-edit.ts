import { useMemo } from "react";
import { useActions, useApp } from "../model/state/index.ts";
import type { Edit } from "./edit.ts";

/** The job in hand, for its sheets; undefined while there is none. */
export function useEdit(): Edit | undefined {
  const document = useApp((s) => s.job?.document);
  const job = useApp((s) => (s.job?.read.ok ? s.job.read.job : undefined));
  const show = useApp((s) => s.show);
  const points = useApp((s) => s.results.points);
  const act = useActions();
  return useMemo(
    () => document && { document, job, show, points, run: (command) => void act.run(command) },
    [document, job, show, points, act],
  );
}
