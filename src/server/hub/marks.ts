import * as Y from "yjs";
import { marksOnly, toJson } from "../../shared/index.ts";
import { copyOf } from "./load.ts";

/**
 * Whether a change of a job marks progress and does nothing else. One that builds on what is not there says nothing
 * yet, and could say anything later: it does not pass.
 */
export function isMark(doc: Y.Doc, update: Uint8Array): boolean {
  const after = copyOf(doc);
  Y.applyUpdate(after, update);
  const isWhole = after.store.pendingStructs === null && after.store.pendingDs === null;
  return isWhole && marksOnly(toJson(doc), toJson(after));
}
