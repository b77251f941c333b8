import type { MiddlewareHandler } from "hono";
import { createMiddleware } from "hono/factory";
import { SHOP } from "../../words/index.ts";
import { HEADERS } from "../policy.ts";
import type { Addresses } from "./addresses.ts";
import { channelOf } from "./channel.ts";
import type { GateEnv } from "./env.ts";
import { Refused } from "./refused.ts";

/** On every answer, refusals included. No HSTS: the plain address has to go on working. */
export const withHeaders: MiddlewareHandler = async (c, next) => {
  await next();
  for (const [name, value] of Object.entries(HEADERS)) if (!c.res.headers.has(name)) c.header(name, value);
};

/** Nobody on the way keeps an answer. */
export const unkept: MiddlewareHandler = async (c, next) => {
  await next();
  c.header("Cache-Control", "no-store");
};

const READS: readonly string[] = ["GET", "HEAD"];
const METHODS: readonly string[] = [...READS, "POST", "PUT", "PATCH", "DELETE"];

/** What a body has to be, by where it is sent. */
function typeAt(path: string): string {
  if (path === "/join") return "application/x-www-form-urlencoded";
  return path.startsWith("/shop/photographs/") ? "application/octet-stream" : "application/json";
}

/**
 * Lets in what is asked of the shop under one of its own addresses and, where it would change something, by one of its
 * own pages. A cookie goes along with whatever a browser sends, also from a page of someone else; the origin and the
 * type of the body tell those apart. There is no answer to the browser's question whether another origin may (CORS).
 */
export const guard = (own: Addresses) =>
  createMiddleware<GateEnv>(async (c, next) => {
    const channel = channelOf(c.env.incoming);
    c.set("channel", channel);
    const host = c.req.header("host");
    if (own.parts(host)?.secure !== channel.secure) throw new Refused(403, SHOP.foreignHost);
    const origin = c.req.header("origin");
    const { method, path } = c.req;
    if (!own.isOwn(host, origin)) throw new Refused(403, SHOP.foreignOrigin);
    if (READS.includes(method)) return next();
    if (origin === undefined) throw new Refused(403, SHOP.foreignOrigin);
    if (!METHODS.includes(method)) throw new Refused(405, SHOP.method(method));
    const type = c.req.header("content-type")?.split(";")[0]?.trim().toLowerCase();
    if (type !== typeAt(path)) throw new Refused(415, SHOP.contentType(typeAt(path)));
    return next();
  });
