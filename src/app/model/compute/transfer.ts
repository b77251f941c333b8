import type { BarResult, ComputeAnswer } from "./protocol.ts";

/**
 * An answer ready to leave the worker: its curves copied (the plan keeps its own), and the buffers that can go over
 * without being copied again.
 */
export function toSend(answer: ComputeAnswer): {
  readonly answer: ComputeAnswer;
  readonly buffers: ArrayBuffer[];
} {
  if (!answer.ok) return { answer, buffers: [] };
  const changed = answer.changed.map(withOwnCurves);
  return { answer: { ...answer, changed }, buffers: changed.flatMap(buffersOf) };
}

function withOwnCurves(result: BarResult): BarResult {
  const { A, B } = result.copes;
  const own = (cope: typeof A): typeof A => ({ ...cope, outer: cope.outer.slice(), bore: cope.bore.slice() });
  return { ...result, copes: { A: own(A), B: own(B) } };
}

function buffersOf({ copes, mesh }: BarResult): ArrayBuffer[] {
  const arrays = [copes.A.outer, copes.A.bore, copes.B.outer, copes.B.bore, ...Object.values(mesh)];
  const buffers = arrays.flatMap((a) => (ArrayBuffer.isView(a) ? [a.buffer as ArrayBuffer] : []));
  return [...new Set(buffers)];
}
