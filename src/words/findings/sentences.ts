import type { Code } from "../../core/findings/index.ts";
import { BEND } from "./bend.ts";
import { COPE } from "./cope.ts";
import { DIE } from "./die.ts";
import { FIT } from "./fit.ts";
import { LAYOUT } from "./layout.ts";
import { SURVEY } from "./survey.ts";

/** The sentence of every finding; `{name}` is one of the finding's values. A code without one does not compile. */
export const SENTENCES: Readonly<Record<Code, string>> = {
  ...LAYOUT,
  ...COPE,
  ...SURVEY,
  ...DIE,
  ...BEND,
  ...FIT,
};
