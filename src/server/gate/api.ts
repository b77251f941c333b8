import { Hono } from "hono";
import { createMiddleware } from "hono/factory";
import { SHOP } from "../../words/index.ts";
import { deviceAnswers } from "./answers-devices.ts";
import { jobAnswers } from "./answers-jobs.ts";
import { photographAnswers } from "./answers-photographs.ts";
import type { GateEnv } from "./env.ts";
import { unkept } from "./guard.ts";
import type { Parts } from "./parts.ts";
import { Refused } from "./refused.ts";

/** Everything under /shop: for devices of the shop alone, as JSON, kept by nobody on the way. */
export function api(parts: Parts): Hono<GateEnv> {
  const { authority, devices, own, shop } = parts;
  const app = new Hono<GateEnv>();
  app.use(unkept);
  app.use(
    createMiddleware<GateEnv>(async (c, next) => {
      const channel = c.get("channel");
      const device = await devices.deviceOf(c.req.header(), channel);
      if (!device) throw new Refused(401, SHOP.notPaired);
      if (device.rights !== "all" && c.req.method !== "GET" && c.req.method !== "HEAD")
        throw new Refused(403, channel.secure || channel.loopback ? SHOP.onlyMarks : SHOP.onlyMarksPlain);
      c.set("device", device);
      return next();
    }),
  );
  app.get("/", (c) =>
    c.json({
      shop,
      me: c.get("device"),
      secure: c.get("channel").secure,
      fingerprint: authority.fingerprint,
      addresses: { http: own.list(false), https: own.list(true) },
    }),
  );
  app.get("/notices", async (c) => c.json(await parts.notices()));
  app.route("/", deviceAnswers(parts));
  app.route("/", jobAnswers(parts));
  app.route("/", photographAnswers(parts));
  return app;
}
