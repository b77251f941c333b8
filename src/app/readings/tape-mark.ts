import { recall, remember } from "../kit/index.ts";
import type { Json } from "../model/document/index.ts";

const KEY = "tape zero";

/** What of the tape this device's user holds: it is kept, for a tape stays burnt when the page is left. */
export function tapeMark(): { readonly mark?: Json } {
  const kept = recall(KEY);
  if (!kept) return {};
  return { mark: Number.isFinite(Number(kept)) ? Number(kept) : kept };
}

export const keepTapeMark = (mark: Json | undefined): void =>
  remember(KEY, mark === undefined ? "" : String(mark));
