import type { CopeResult } from "../../cope/index.ts";
import type { End, Needs } from "../../job/types.ts";
import type { ResolvedBar } from "../../layout/types.ts";

/** A bar with what the fit needs to know of it. */
export interface FitBar {
  readonly bar: ResolvedBar;
  readonly copes: Readonly<Record<End, CopeResult>>;
  readonly hosts: Readonly<Record<End, readonly ResolvedBar[]>>;
  readonly needs?: Needs;
}
