import { Hono } from "hono";
import { SERVE } from "../words/index.ts";
import { atOneAddress, HOST, isLocalhost, WHO, whoServes } from "./address.ts";
import { fileIn, jobFileIn, jobFiles, typeOf, whyUnread } from "./files.ts";
import { HEADERS } from "./policy.ts";

export interface ServedFolders {
  /** The built app. */
  readonly app: string;
  /** The folder of job files. */
  readonly jobs: string;
}

/**
 * The app's files, `GET /jobs` (the folder's JSON files) and `GET /jobs/NAME` (one's text); nothing is ever written.
 * `localhost` is sent on to the one address. Asked under any other name it answers nothing, so that no page elsewhere reaches it by a name
 * that it made point here.
 */
export function serverApp({ app, jobs }: ServedFolders): Hono {
  const server = new Hono();
  // First, so that whoever answers or refuses after it carries the headers.
  server.use(async (c, next) => {
    await next();
    for (const [name, value] of Object.entries(HEADERS)) c.header(name, value);
  });
  server.use(async (c, next) => {
    const host = new URL(c.req.url).hostname;
    if (host !== HOST && !isLocalhost(host)) return c.text(`${SERVE.ask(HOST)}\n`, 403);
    if (c.req.method !== "GET" && c.req.method !== "HEAD") {
      return c.text(`${SERVE.readOnly}\n`, 405, { Allow: "GET, HEAD" });
    }
    return next();
  });
  // A file may go, or be closed to this user, between being listed and being read.
  server.onError((error, c) => c.text(`${SERVE.unreadable(whyUnread(error))}\n`, 500));
  server.use(atOneAddress);
  server.get(WHO, (c) => c.json(whoServes(jobs), 200, { "Cache-Control": "no-store" }));
  server.get("/jobs", async (c) => c.json(await jobFiles(jobs), 200, { "Cache-Control": "no-store" }));
  server.get("/jobs/:name", async (c) => {
    const name = c.req.param("name");
    const bytes = await jobFileIn(jobs, name);
    if (!bytes) return c.text(`${SERVE.noJob(name)}\n`, 404);
    return c.body(bytes, 200, { "Content-Type": typeOf(name), "Cache-Control": "no-store" });
  });
  server.get("*", async (c) => {
    const path = c.req.path === "/" ? "index.html" : c.req.path.slice(1);
    const bytes = await fileIn(app, path);
    if (!bytes) return c.text(`${SERVE.noPage}\n`, 404);
    // Vite puts a digest of the content into the names under assets/
    const kept = path.startsWith("assets/") ? "max-age=31536000, immutable" : "no-cache";
    return c.body(bytes, 200, { "Content-Type": typeOf(path), "Cache-Control": kept });
  });
  return server;
}
