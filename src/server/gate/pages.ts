import { Hono } from "hono";
import { SHOP } from "../../words/index.ts";
import { WHO, whoServes } from "../address.ts";
import { fileIn, typeOf } from "../files.ts";
import type { GateEnv } from "./env.ts";
import type { Parts } from "./parts.ts";
import { Refused } from "./refused.ts";

/** The built app, for devices of the shop. A page for any other one is the page to become one. */
export function pages({ appFolder, devices, folder }: Parts & { readonly folder: string }): Hono<GateEnv> {
  const app = new Hono<GateEnv>();
  // A second start on this machine finds the port taken, and asks by whom; a page, whether it is of a shop.
  app.get(WHO, async (c, next) => {
    const channel = c.get("channel");
    if (!channel.loopback && !(await devices.deviceOf(c.req.header(), channel))) return next();
    const { program, ...who } = whoServes(folder);
    const said = channel.loopback ? { program, ...who, shop: true } : { program, shop: true };
    return c.json(said, 200, { "Cache-Control": "no-store" });
  });
  app.get("*", async (c) => {
    const channel = c.get("channel");
    if (!(await devices.deviceOf(c.req.header(), channel))) {
      // A cookie that is for this site alone does not come along from another one, as from the shop's former address or
      // a message: the page asks once more by itself, and keeps what stands behind the # of its address.
      if (c.req.header("sec-fetch-site") === "cross-site" && c.req.header("sec-fetch-mode") === "navigate")
        return c.html('<!doctype html><meta http-equiv="refresh" content="0">', 200, {
          "Cache-Control": "no-store",
        });
      // Only where a person waits for a page: what a program fetches must never be answered with another page.
      if (isPage(c.req.header("accept"), c.req.header("sec-fetch-mode"))) return c.redirect("/join", 303);
      throw new Refused(401, SHOP.notPaired);
    }
    const path = c.req.path === "/" ? "index.html" : c.req.path.slice(1);
    const bytes = await fileIn(appFolder, path);
    if (!bytes) throw new Refused(404, path === "index.html" ? SHOP.notBuilt : SHOP.nothingHere);
    if (path === "index.html") {
      const cookie = await devices.renewed(c.req.header(), channel);
      if (cookie !== undefined) c.header("Set-Cookie", cookie);
    }
    // Vite puts a digest of the content into the names under assets/
    const kept = path.startsWith("assets/") ? "private, max-age=31536000, immutable" : "no-cache";
    return c.body(bytes, 200, { "Content-Type": typeOf(path), "Cache-Control": kept });
  });
  return app;
}

const isPage = (accept = "", mode?: string): boolean =>
  mode === "navigate" || (mode === undefined && accept.includes("text/html"));
