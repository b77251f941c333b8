import { at, type JobDocument, type Json } from "../model/document/index.ts";

/** Whether the job uses these places already, to a tenth of a millimetre. */
export function keptAs(document: JobDocument, id: string, path: readonly (readonly number[])[]): boolean {
  const kept = at(document, ["asBuilt", id, "path"]) as Json | undefined;
  return (
    Array.isArray(kept) &&
    kept.length === path.length &&
    path.every((p, i) => p.every((v, k) => Math.abs(v - Number(at(kept as Json, [i, k]))) < 0.1))
  );
}
