// Bundles the command line into one file, so that it starts at once and runs wherever Node 20 does.
import { build } from "esbuild";

await build({
  entryPoints: ["src/cli/entry.ts"],
  outfile: "dist/cli.mjs",
  bundle: true,
  platform: "node",
  target: "node20",
  format: "esm",
  // Packages stay in node_modules: their own files (fonts, wasm) are found beside them.
  packages: "external",
  sourcemap: "inline",
  logLevel: "warning",
});
