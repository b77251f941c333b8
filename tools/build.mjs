// Bundles the command line, and what it starts beside itself (long work, the watch over a folder, a shop), so that they
// start at once and run wherever Node 20 does. Each its own bundle: what a command does not need is not loaded.
import { build } from "esbuild";

await build({
  entryPoints: {
    cli: "src/cli/entry.ts",
    "fit-worker": "src/cli/fit-worker.ts",
    "cards-guard": "src/cli/cards-guard.ts",
    shop: "src/server/shop/index.ts",
  },
  outdir: process.argv[2] ?? "dist",
  outExtension: { ".js": ".mjs" },
  bundle: true,
  platform: "node",
  target: "node20",
  format: "esm",
  // Packages stay in node_modules: their own files (fonts, wasm) are found beside them.
  packages: "external",
  sourcemap: "inline",
  logLevel: "warning",
});
