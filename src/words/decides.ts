import { type Code, type Finding, isDanger } from "../core/findings/index.ts";
import type { MadeVerdict } from "../core/made/types.ts";

/** Findings that repeat a rule of the rule books. */
const RULES: ReadonlySet<Code> = new Set(["bend-tight"]);

/** Whether what is shown is for others to decide, so that it is shown with WHO_DECIDES. */
export const isForOthers = (findings: readonly Finding[]): boolean =>
  findings.some((f) => isDanger(f) || RULES.has(f.code));

/** Whether a made bar is to be eased, which is shown with WHO_DECIDES. */
export const isEased = ({ verdict }: Pick<MadeVerdict, "verdict">): boolean => verdict === "ease";
