import { Hono } from "hono";
import { renderSVG } from "uqr";
import { SHOP } from "../../words/index.ts";
import type { GateEnv } from "./env.ts";
import { atMost, fieldsOf, nameIn, rightsIn } from "./fields.ts";
import { MOST_OF_NAME } from "./join-page.ts";
import type { Parts } from "./parts.ts";
import { Refused } from "./refused.ts";

/** A way in for a new device: what to open, and the same as a QR code (SVG). */
export interface Way {
  readonly url: string;
  readonly secure: boolean;
  readonly qr: string;
}

/** Who is in the shop, and codes for who shall be. */
export function deviceAnswers({ codes, devices, news, own }: Parts): Hono<GateEnv> {
  const app = new Hono<GateEnv>();
  app.get("/devices", async (c) => c.json(await devices.list()));
  app.patch("/devices/:id", atMost(4096, "4 kB"), async (c) => {
    const { name, rights } = await fieldsOf(c, ["name", "rights"]);
    if (name === undefined && rights === undefined) throw new Refused(400, SHOP.noFields("name, rights"));
    const change = {
      ...(name === undefined ? {} : { name: nameIn("name", name, MOST_OF_NAME) }),
      ...(rights === undefined ? {} : { rights: rightsIn(rights) }),
    };
    if (!(await devices.change(c.req.param("id"), change))) throw new Refused(404, SHOP.noDevice);
    news("devices");
    return c.body(null, 204);
  });
  app.delete("/devices/:id", async (c) => {
    if (!(await devices.putOut(c.req.param("id")))) throw new Refused(404, SHOP.noDevice);
    news("devices");
    return c.body(null, 204);
  });
  app.post("/codes", atMost(4096, "4 kB"), async (c) => {
    const rights = rightsIn((await fieldsOf(c, ["rights"])).rights);
    const { code, until } = await codes.make(rights);
    // Whoever listens on the plain network could be quicker with what is opened there: that code lets nobody edit.
    const plain = await codes.make("marks");
    const way =
      (secure: boolean) =>
      (address: string): Way => {
        const url = `${address}/join?code=${secure ? code : plain.code}`;
        return { url, secure, qr: renderSVG(url, { border: 4 }) };
      };
    return c.json({
      code,
      until,
      ways: [...own.list(true).map(way(true)), ...own.list(false).map(way(false))],
    });
  });
  return app;
}
