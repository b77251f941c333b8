import { useMemo, useState } from "react";
import { readJob } from "../../core/job/index.ts";
import { problemLine } from "../../words/index.ts";
import type { Command, JobDocument } from "../model/document/index.ts";
import type { Edit } from "../things/index.ts";

/** A small document of a page's own, changed as the job in hand is: what would be no job is refused, with its line. */
export function useOwnEdit(
  document: JobDocument,
  set: (document: JobDocument) => void,
): { readonly edit: Edit; readonly refused: readonly string[] } {
  const [refused, setRefused] = useState<readonly string[]>([]);
  const edit = useMemo((): Edit => {
    const read = readJob(document);
    const job = read.ok ? read.job : undefined;
    return {
      document,
      job,
      show: job?.show ?? { length: "mm", fraction: 16 },
      run(command: Command) {
        const done = command.edit(document);
        const lines = done.ok ? problemsOf(done.document) : done.lines;
        setRefused(lines);
        if (done.ok && lines.length === 0) set(done.document);
      },
    };
  }, [document, set]);
  return { edit, refused };
}

function problemsOf(document: JobDocument): readonly string[] {
  const read = readJob(document);
  return read.ok ? [] : read.problems.map(problemLine);
}
