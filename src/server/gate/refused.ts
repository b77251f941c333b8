import type { Context } from "hono";
import { SHOP } from "../../words/index.ts";
import { NotStored } from "../store/index.ts";

type Status = 400 | 401 | 403 | 404 | 405 | 409 | 413 | 415;

/** What is answered instead of what was asked for: one line that says what to do. */
export class Refused extends Error {
  override readonly name = "Refused";
  readonly status: Status;
  constructor(status: Status, line: string) {
    super(line);
    this.status = status;
  }
}

/** What to answer for a refusal or a fault; nothing of a fault of the program goes out. */
export function faultOf(error: unknown): { readonly status: Status | 500 | 503; readonly line: string } {
  if (error instanceof Refused) return { status: error.status, line: error.message };
  if (error instanceof NotStored) return { status: 503, line: SHOP.notStored[error.why] };
  return { status: 500, line: SHOP.fault };
}

/** Every refusal and every fault, as JSON. */
export function refusal(error: unknown, c: Context): Response {
  const { status, line } = faultOf(error);
  c.header("Cache-Control", "no-store");
  return c.json({ error: line }, status);
}
