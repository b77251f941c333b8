import { computerOn, type Results } from "../model/compute/index.ts";
import { sessionWith } from "../model/compute/session.ts";
import type { JobDocument } from "../model/document/index.ts";

/** Everything computed of a job, in this thread. */
export function resultsOf(...documents: readonly JobDocument[]): Results {
  const computer = computerOn(sessionWith(() => Promise.reject(new Error("nothing is printed here"))));
  for (const document of documents) computer.compute(document);
  return computer.results();
}
