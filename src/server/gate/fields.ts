import type { Context } from "hono";
import { bodyLimit } from "hono/body-limit";
import type { Rights } from "../../shared/index.ts";
import { SHOP } from "../../words/index.ts";
import { Refused } from "./refused.ts";

/** A longer body is not read to its end. */
export const atMost = (bytes: number, said: string) =>
  bodyLimit({
    maxSize: bytes,
    onError: () => {
      throw new Refused(413, SHOP.tooLong(said));
    },
  });

/** The fields of a JSON body; every one that is not known is refused by name. */
export async function fieldsOf(
  c: Context,
  known: readonly string[],
): Promise<Readonly<Record<string, unknown>>> {
  let body: unknown;
  try {
    body = JSON.parse(await c.req.text());
  } catch {
    throw new Refused(400, SHOP.notJson);
  }
  if (typeof body !== "object" || body === null || Array.isArray(body)) throw new Refused(400, SHOP.notJson);
  const stranger = Object.keys(body).find((key) => !known.includes(key));
  if (stranger !== undefined)
    throw new Refused(400, SHOP.unknownField(JSON.stringify(stranger.slice(0, 40)), known.join(", ")));
  return { ...body };
}

export function rightsIn(value: unknown): Rights {
  if (value === "all" || value === "marks") return value;
  throw new Refused(400, SHOP.wrongRights);
}

/** A name on one line, without what a screen does not show; spaces count once. */
export function nameIn(field: string, value: unknown, most: number): string {
  const name =
    typeof value === "string"
      ? value.replace(/\s+/gu, " ").replace(/\p{C}/gu, "").normalize("NFC").trim()
      : "";
  if (name === "" || [...name].length > most) throw new Refused(400, SHOP.wrongName(field, most));
  return name;
}

/** A whole number of a query or a body; digits alone in a query. */
export function countIn(field: string, value: unknown, least: number, most: number): number {
  const count = typeof value === "string" && /^\d{1,16}$/.test(value) ? Number(value) : value;
  if (typeof count === "number" && Number.isSafeInteger(count) && count >= least && count <= most)
    return count;
  throw new Refused(400, SHOP.wrongCount(field, least, most));
}
