import { readFileSync } from "node:fs";
import { createServer } from "node:http";
import type { AddressInfo } from "node:net";
import { build } from "esbuild";
import { type Browser, chromium } from "playwright-core";

/** The system's Chromium, with software rendering and no network of its own. */
export const launch = (): Promise<Browser> =>
  chromium.launch({
    executablePath: "/usr/bin/chromium",
    args: [
      "--no-sandbox",
      "--disable-gpu",
      "--disable-quic",
      "--no-first-run",
      "--disable-background-networking",
      "--disable-component-update",
      "--disable-sync",
    ],
  });

/** Bundles one script and serves it on loopback with a bare page and the demo job. */
export async function servePage(entry: string): Promise<{ readonly url: string; close(): Promise<void> }> {
  const bundle = await build({
    entryPoints: [entry],
    bundle: true,
    format: "esm",
    target: "es2022",
    minify: true,
    write: false,
    // The page is bare: what the components look like is not asked here.
    loader: { ".css": "empty", ".module.css": "empty" },
  });
  const script = bundle.outputFiles[0]!.text;
  const page = `<!doctype html><html lang="en"><title>view</title><style>html,body{margin:0;height:100%}
    canvas{display:block;width:100vw;height:100vh;outline-offset:-3px}</style>
    <canvas aria-label="The cage"></canvas><script type="module" src="/script.js"></script>`;
  const server = createServer((request, response) => {
    const path = request.url?.split("?")[0];
    const [type, body] =
      path === "/script.js"
        ? ["text/javascript", script]
        : path === "/job.json"
          ? ["application/json", readFileSync("demo/sandling.json", "utf8")]
          : ["text/html", page];
    response.writeHead(path === "/favicon.ico" ? 404 : 200, { "content-type": `${type}; charset=utf-8` });
    response.end(body);
  });
  await new Promise<void>((done) => server.listen(0, "127.0.0.1", done));
  const { port } = server.address() as AddressInfo;
  return {
    url: `http://127.0.0.1:${port}/`,
    close: () => new Promise((done) => server.close(() => done())),
  };
}
