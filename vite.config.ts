import { basename, join } from "node:path";
import react from "@vitejs/plugin-react";
import { defineConfig, type Plugin } from "vite";
import { VitePWA } from "vite-plugin-pwa";

/** What the published schema says of each property (`.describe("…")`) is asked of the command line alone: pages go without. */
const withoutDescriptions: Plugin = {
  name: "without-descriptions",
  enforce: "pre",
  transform: {
    filter: { id: /\/src\/core\/job\/.*\.ts$/ },
    handler: (code) => code.replace(/\s*\.describe\(\s*"(?:[^"\\]|\\.)*",?\s*\)/g, ""),
  },
};

/**
 * The programs of the renderer's own materials go: the picture draws with its own (src/app/cage/shaders.ts), which include
 * the pieces for sections alone; every program has the pieces for colours.
 */
const withoutMaterials: Plugin = {
  name: "without-materials",
  enforce: "pre",
  transform: {
    filter: { id: /\/three\/build\/three\.module\.js$/ },
    handler: (code) =>
      code.replace(
        /^(var (?!clipping_planes_|colorspace_pars_|tonemapping_pars_)\w+|const (?:vertex|fragment)\$\w+) = ".*";$/gm,
        '$1 = "";',
      ),
  },
};

export default defineConfig({
  root: "src/app",
  base: "/",
  build: {
    outDir: "../../dist/app",
    emptyOutDir: true,
    target: "es2023",
    // The policy of the server lets nothing in that stands in the page itself.
    assetsInlineLimit: 0,
    // Loaded from this machine's own disk: one large chunk is nothing to warn of.
    chunkSizeWarningLimit: 3000,
    // All that the first page needs is one file: in many small ones that other pages share it would weigh more.
    rolldownOptions: { output: { codeSplitting: { groups: [{ name: "first", tags: ["$initial"] }] } } },
    modulePreload: {
      polyfill: false,
      // Of a part that is opened later its styles alone: the names of all its files would be in the first page.
      resolveDependencies: (_, files, { hostType }) =>
        hostType === "html" ? files : files.filter((file) => file.endsWith(".css")),
    },
  },
  worker: { format: "es", plugins: () => [withoutDescriptions] },
  resolve: {
    alias: {
      // The package's own file is one piece of 100 kB; of its sources only what is used is taken.
      "ml-matrix": join(import.meta.dirname, "node_modules/ml-matrix/src/index.js"),
      // What Yjs writes to a console now and then: the browsers' own version colours it, and brings 12 kB along for that.
      "lib0/logging": join(import.meta.dirname, "node_modules/lib0/logging.node.js"),
    },
  },
  css: {
    modules: {
      // A name to be found by, in the page as in the file: parts.module.css, .stage-head → parts-stage-head.
      generateScopedName: (name, file) => `${basename(file.split("?")[0] ?? file, ".module.css")}-${name}`,
      localsConvention: "camelCaseOnly",
    },
  },
  plugins: [
    withoutDescriptions,
    withoutMaterials,
    react(),
    VitePWA({
      // A newer version waits until the user starts it: no open job is ever pulled away (src/app/offline.ts).
      registerType: "prompt",
      injectRegister: null,
      // A shop gives its files to its own devices alone, the manifest too.
      useCredentials: true,
      manifest: {
        id: "/",
        name: "Tubewright",
        short_name: "Tubewright",
        description: "From measurements in the car to marks at the bender and templates at the notcher.",
        start_url: "/",
        display: "standalone",
        background_color: "#f4f2ec",
        theme_color: "#f4f2ec",
        icons: [
          { src: "icon-192.png", sizes: "192x192", type: "image/png" },
          { src: "icon-512.png", sizes: "512x512", type: "image/png" },
          { src: "icon.svg", sizes: "any", type: "image/svg+xml" },
        ],
      },
      workbox: {
        // Everything the app can ask for, the printing fonts and the demo included: it works with the cable out.
        globPatterns: ["**/*.{html,js,css,json,svg,png,ttf,icc,wasm,webmanifest}"],
        maximumFileSizeToCacheInBytes: 12 * 1024 * 1024,
        navigateFallback: "/index.html",
        // what a server answers by itself: its job files, and of a shop the page to join and all that is asked of it
        navigateFallbackDenylist: [/^\/(jobs|shop)(\/|$)/, /^\/join(\?|$)/, /^\/authority\.crt/],
        ignoreURLParametersMatching: [/^open$/],
        cleanupOutdatedCaches: true,
      },
    }),
  ],
});
