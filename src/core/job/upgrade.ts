import { isDict, own } from "./peek.ts";
import { VERSION } from "./schema.ts";

type Dict = Readonly<Record<string, unknown>>;

/**
 * From a version to the one after it; what a step does not name it keeps. A key means the same in every version that
 * has it (what means something else gets another name), so that an older program may read what it knows of a newer job.
 */
type Steps = Readonly<Record<number, (document: Dict) => Dict>>;

const STEPS: Steps = {
  // Version 2 adds keys (a plate's `along`); all that the first version says, it says the same way.
  1: (document) => document,
};

/**
 * An older job file's document as one of the version after the last step; whatever is not that is left as it is, for
 * the reader to judge.
 */
export function upgraded(document: unknown, steps = STEPS, newest: number = VERSION): unknown {
  let next = document;
  for (;;) {
    const version = isDict(next) ? own(next, "version") : undefined;
    const step = typeof version === "number" && version < newest ? steps[version] : undefined;
    if (!step || !isDict(next)) return next;
    next = { ...step(next), version: (version as number) + 1 };
  }
}
