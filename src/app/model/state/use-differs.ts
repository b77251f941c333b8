import type { DiffersReply } from "../compute/index.ts";
import { isAnyMade } from "../document/index.ts";
import { useAnswer } from "./use-answer.ts";
import { useApp } from "./use-app.ts";

const ALL = {};

/** Where what is made and what is wanted differ; undefined where nothing is made, and until it is computed. */
export function useDiffers(): DiffersReply | undefined {
  const hasMade = useApp((s) => s.job !== undefined && isAnyMade(s.job.document));
  return useAnswer("differs", hasMade ? ALL : undefined)?.answer;
}
