import type { Context } from "hono";
import { SHOP } from "../../words/index.ts";
import { NotStored } from "../store/index.ts";

type Status = 400 | 401 | 403 | 404 | 405 | 409 | 410 | 413 | 415 | 429;

/** What is answered instead of what was asked for: one line that says what to do. */
export class Refused extends Error {
  override readonly name = "Refused";
  readonly status: Status;
  /** Seconds after which to try again. */
  readonly after: number | undefined;
  constructor(status: Status, line: string, after?: number) {
    super(line);
    this.status = status;
    this.after = after;
  }
}

/** Every refusal and every fault, as JSON; nothing of a fault of the program goes out. */
export function refusal(error: unknown, c: Context): Response {
  c.header("Cache-Control", "no-store");
  if (error instanceof Refused) {
    if (error.after !== undefined) c.header("Retry-After", String(error.after));
    return c.json({ error: error.message }, error.status);
  }
  if (error instanceof NotStored) return c.json({ error: SHOP.notStored[error.why] }, 503);
  return c.json({ error: SHOP.fault }, 500);
}
