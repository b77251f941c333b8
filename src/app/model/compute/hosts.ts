import type { BarResult } from "./protocol.ts";

/** What a bar lands on, by ID: of end A, then of end B. */
export const hostsOf = (result: BarResult | undefined): readonly string[] =>
  result ? [result.bar.seat.A, result.bar.seat.B].flatMap((s) => (s.kind === "on" ? s.hosts : [])) : [];
