import type { LaidOut } from "./types.ts";

/** What a bar was laid out from. */
export type Basis = NonNullable<LaidOut["basis"]>;

/** Whether two bars were laid out from the same. */
export const sameBasis = (a: Basis, b: Basis): boolean =>
  a.text === b.text && a.hosts.length === b.hosts.length && a.hosts.every((h, i) => h === b.hosts[i]);
