import { type Context, Hono } from "hono";
import type { ContentfulStatusCode } from "hono/utils/http-status";
import { JOIN } from "../../words/index.ts";
import { CONTENT_SECURITY_POLICY } from "../policy.ts";
import { addressOf } from "./channel.ts";
import type { Judged } from "./codes.ts";
import type { GateEnv } from "./env.ts";
import { atMost, nameIn } from "./fields.ts";
import { unkept } from "./guard.ts";
import { type JoinPage, joinPage, MOST_OF_NAME } from "./join-page.ts";
import { JOIN_CSS } from "./join-style.ts";
import type { Parts } from "./parts.ts";
import { faultOf, Refused } from "./refused.ts";

/** A form of this page may be sent to this server. */
const POLICY = CONTENT_SECURITY_POLICY.replace("form-action 'none'", "form-action 'self'");

const STATUS = { used: 410, old: 410, unknown: 403, elsewhere: 403, wait: 429 } as const;

type Ctx = Context<GateEnv>;

/** All that answers without a credential: the page to become part of the shop, its styles, and the authority's certificate. */
export function joining(parts: Parts): Hono<GateEnv> {
  const { authority, codes, devices, news } = parts;
  const { show, refuse } = pageOf(parts);
  const app = new Hono<GateEnv>();
  app.onError((error, c) => {
    const { status, line } = faultOf(error);
    return show(c, { wrong: line }, status);
  });
  for (const path of ["/join", "/join.css", "/authority.crt"]) app.use(path, unkept);
  app.get("/join", async (c) => {
    const channel = c.get("channel");
    if (await devices.deviceOf(c.req.header(), channel)) return c.redirect("/", 303);
    const code = c.req.query("code");
    if (code === undefined) return show(c, {});
    const judged = await codes.look(code, addressOf(c.env.incoming), channel);
    return judged.is === "good" ? show(c, { code }) : refuse(c, judged);
  });
  app.post("/join", atMost(4096, "4 kB"), async (c) => {
    const { code, name } = await formOf(c);
    // the code is not used up by a name that is none
    if (name instanceof Refused) return show(c, { code: code || undefined, wrong: name.message }, 400);
    const channel = c.get("channel");
    const judged = await codes.use(code, addressOf(c.env.incoming), channel);
    if (judged.is !== "good") return refuse(c, judged, name);
    const { cookie } = await devices.pair(name, judged.rights, channel);
    news("devices");
    c.header("Set-Cookie", cookie);
    return c.redirect("/", 303);
  });
  app.get("/join.css", (c) => c.body(JOIN_CSS, 200, { "Content-Type": "text/css; charset=utf-8" }));
  app.get("/authority.crt", (c) =>
    c.body(authority.file(), 200, { "Content-Type": "application/x-x509-ca-cert" }),
  );
  return app;
}

async function formOf(c: Ctx): Promise<{ readonly code: string; readonly name: string | Refused }> {
  const form = await c.req.parseBody();
  const code = typeof form.code === "string" ? form.code : "";
  try {
    return { code, name: nameIn("name", form.name, MOST_OF_NAME) };
  } catch (error) {
    if (error instanceof Refused) return { code, name: error };
    throw error;
  }
}

/** The page as it is shown, with a code, without one, or with why a code is not taken. */
function pageOf(parts: Parts) {
  const show = (c: Ctx, page: Omit<JoinPage, "shop" | "plain">, status: ContentfulStatusCode = 200) => {
    c.header("Content-Security-Policy", POLICY);
    // with no referrer at all a browser would send the form from an origin "null"
    c.header("Referrer-Policy", "same-origin");
    c.header("Cache-Control", "no-store");
    return c.html(joinPage({ shop: parts.shop, ...page, plain: secureWay(c, parts) }), status);
  };
  const refuse = (c: Ctx, judged: Exclude<Judged, { is: "good" }>, name?: string) => {
    if (judged.is !== "wait") return show(c, { name, wrong: JOIN.refused[judged.is] }, STATUS[judged.is]);
    c.header("Retry-After", String(judged.seconds));
    return show(c, { name, wrong: JOIN.wait(judged.seconds) }, STATUS.wait);
  };
  return { show, refuse };
}

function secureWay(c: Ctx, { authority, own, ports }: Parts): JoinPage["plain"] {
  const { secure, loopback } = c.get("channel");
  const at = own.parts(c.req.header("host"));
  if (secure || loopback || !at) return undefined;
  return { secureUrl: `https://${at.name}:${ports.https}/join`, fingerprint: authority.fingerprint };
}
