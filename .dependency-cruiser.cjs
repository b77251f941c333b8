// Which way imports run between the rooms (docs/architecture.md). A sibling room is reached through plan alone.
const core = "^src/core/";
/** Rooms that compute from bars; none imports another, but fit may use cope. */
const siblings = ["bend", "cope", "survey", "trestles", "fit", "frame", "made", "strength", "rules", "rack", "mesh"];
const base = ["units", "findings", "numeric", "estimate", "space"];
const only = (room, allowed) => ({
  name: `${room}-imports`,
  severity: "error",
  comment: `${room} may import ${allowed.join(", ") || "nothing"} only`,
  from: { path: `${core}${room}/`, pathNot: "\\.test\\.ts$" },
  to: { path: "^src/", pathNot: [`${core}${room}/`, ...allowed.map((a) => `${core}${a}/`)] },
});
// The job's and the layout's types say what a bar is, and every room that computes from bars reads them.
const types = ["job/types\\.ts", "job/made-types\\.ts", "job/reading-types\\.ts", "layout/types\\.ts"];
const withTypes = (rule) => ({ ...rule, to: { ...rule.to, pathNot: [...rule.to.pathNot, ...types.map((t) => `${core}${t}$`)] } });

// Rooms within the fit, each with what it may import of the others.
const fit = { scene: [], clash: ["scene"], joint: ["scene"], way: ["scene", "joint"], judge: ["scene", "joint", "way"], reach: ["scene", "joint"] };
fit.order = ["scene", "joint", "way", "judge", "reach"];
const within = (room) => ({
  name: `fit-${room}-imports`,
  severity: "error",
  comment: `${room} may import ${fit[room].join(", ") || "none"} of the fit's rooms only, through their index`,
  from: { path: `${core}fit/${room}/`, pathNot: "\\.test\\.ts$" },
  to: { path: `${core}fit/`, pathNot: [`${core}fit/${room}/`, ...fit[room].map((r) => `${core}fit/${r}/index\\.ts$`)] },
});

// Rooms of the app, each with the rooms of the app that it may import; every one is entered through its index.
const model = ["model/document", "model/storage", "model/compute", "model/shop", "model/state"];
const tools = ["kit", ...model];
const parts = ["things", "bar-editor", "order", "between", "readings", "notch", "made", "answers"];
const stations = ["wall", "car", "bender", "trestles", "notcher"].map((s) => `stations/${s}`);
const app = {
  "model/document": [],
  "model/storage": ["model/document"],
  "model/compute": ["model/document"],
  "model/shop": [],
  "model/state": ["model/document", "model/storage", "model/compute", "model/shop"],
  kit: model,
  cage: tools,
  notch: tools,
  made: tools,
  shop: tools,
  readings: tools,
  things: tools,
  "bar-editor": [...tools, "cage", "things"],
  order: [...tools, "cage"],
  between: [...tools, "cage", "notch"],
  answers: [...tools, "order", "notch", "made"],
  ...Object.fromEntries(stations.map((s) => [s, [...tools, "cage", ...parts.filter((p) => p !== "between")]])),
  print: [...tools, "order"],
  "own-shop": [...tools, "things"],
  shell: [...tools, "things", "own-shop", "between", "order", "print", "shop", ...stations],
};
const inApp = (room) => ({
  name: `app-${room.replace("/", "-")}-imports`,
  severity: "error",
  comment: `${room} may import ${app[room].join(", ") || "no room"} of the app only, through their index`,
  from: { path: `^src/app/${room}/`, pathNot: "(\\.test|/testing)\\.tsx?$" },
  to: { path: "^src/app/", pathNot: [`^src/app/${room}/`, ...app[room].map((r) => `^src/app/${r}/index\\.ts$`)] },
});
// Rooms of the server, each with those that it may import, through their index; beside them, what every server needs.
const ofServers = "^src/server/(policy|files|address|listening)\\.ts$";
const server = { store: [], gate: ["store"], hub: ["store"], shop: ["store", "gate", "hub"] };
const inServer = (room) => ({
  name: `server-${room}-imports`,
  severity: "error",
  comment: `${room} may import ${server[room].join(", ") || "no room"} of the server only, through their index`,
  from: { path: `^src/server/${room}/`, pathNot: "\\.(test|suite)\\.ts$" },
  to: { path: "^src/(server|app|cli|cards|draw)/", pathNot: [`^src/server/${room}/`, ofServers, ...server[room].map((r) => `^src/server/${r}/index\\.ts$`)] },
});
const notARoom = {
  name: "app-rooms-are-known",
  severity: "error",
  comment: "a folder of the app has its rule here; only the page's entry stands outside the rooms",
  from: { path: "^src/app/", pathNot: [...Object.keys(app).map((r) => `^src/app/${r}/`), "^src/app/(main|start|offline|vite-env\\.d)\\.tsx?$", "\\.test\\.tsx?$"] },
  to: { path: "." },
};

module.exports = {
  forbidden: [
    { name: "no-circle", severity: "error", from: { pathNot: "\\.test\\.ts$" }, to: { circular: true, viaOnly: { dependencyTypesNot: ["type-only"] } } },
    only("units", ["findings"]),
    only("findings", []),
    only("numeric", ["findings"]),
    only("estimate", ["units", "findings", "numeric"]),
    only("space", ["numeric"]),
    only("job", ["units", "findings"]),
    withTypes(only("tube", base)),
    withTypes(only("bar", base)),
    only("layout", [...base, "tube", "bar", "job"]),
    ...siblings.map((room) =>
      withTypes(only(room, [...base, "tube", "bar", ...(["fit", "trestles", "mesh", "made"].includes(room) ? ["cope"] : []), ...(room === "made" ? ["trestles"] : [])])),
    ),
    ...Object.keys(fit).map(within),
    only("plan", [...base, "tube", "bar", "job", "layout", ...siblings]),
    {
      name: "core-stays-pure",
      severity: "error",
      comment: "core imports no app, card, drawing, command, server, and nothing of Node",
      from: { path: core, pathNot: "\\.test\\.ts$" },
      to: { path: ["^src/(app|cards|draw|cli|server|words)/", "^node:"] },
    },
    {
      name: "core-no-node",
      severity: "error",
      from: { path: core, pathNot: "\\.test\\.ts$" },
      to: { dependencyTypes: ["core"] },
    },
    {
      name: "words-are-words",
      severity: "error",
      comment: "words knows core's types, the writing of units and the codes of findings; no drawing, card, page or command",
      from: { path: "^src/words/", pathNot: "\\.test\\.ts$" },
      to: { path: ["^src/", "^node:"], pathNot: ["^src/words/", "^src/shared/index\\.ts$", `${core}`] },
    },
    {
      name: "words-take-types-of-shared",
      severity: "error",
      from: { path: "^src/words/", pathNot: "\\.test\\.ts$" },
      to: { path: "^src/shared/", dependencyTypesNot: ["type-only"] },
    },
    {
      name: "words-take-types",
      severity: "error",
      comment: "of other rooms of core words takes types alone; what is asked of turns, directions, tubes and judgements is theirs",
      from: { path: "^src/words/", pathNot: "\\.test\\.ts$" },
      to: { path: core, pathNot: `${core}(units|findings|numeric|space|tube|fit)/`, dependencyTypesNot: ["type-only"] },
    },
    {
      name: "words-by-their-face",
      severity: "error",
      from: { path: "^src/", pathNot: ["^src/words/", "\\.test\\.tsx?$"] },
      to: { path: "^src/words/.+", pathNot: "^src/words/index\\.ts$" },
    },
    {
      name: "draw-knows-no-bar",
      severity: "error",
      from: { path: "^src/draw/", pathNot: "\\.test\\.ts$" },
      to: { path: "^src/", pathNot: ["^src/draw/", "^src/words/index\\.ts$", `${core}(numeric|space)/`] },
    },
    {
      name: "cards-below-the-edge",
      severity: "error",
      from: { path: "^src/cards/", pathNot: "\\.test\\.ts$" },
      to: { path: "^src/(app|cli|server)/" },
    },
    {
      name: "edges-apart",
      severity: "error",
      from: { path: "^src/app/", pathNot: "\\.test\\.ts$" },
      to: { path: "^src/(cli|server)/" },
    },
    {
      name: "shared-is-shared",
      severity: "error",
      comment: "what app and server agree on (the job as a shared document, what passes between them) knows neither",
      from: { path: "^src/shared/", pathNot: "\\.test\\.ts$" },
      to: { path: "^src/", pathNot: "^src/shared/" },
    },
    {
      name: "shared-by-its-face",
      severity: "error",
      from: { path: "^src/", pathNot: ["^src/shared/", "\\.test\\.ts$"] },
      to: { path: "^src/shared/.+", pathNot: "^src/shared/index\\.ts$" },
    },
    ...Object.keys(server).map(inServer),
    ...Object.keys(app).map(inApp),
    notARoom,
    {
      name: "app-entry-through-faces",
      severity: "error",
      from: { path: "^src/app/[^/]+\\.tsx?$" },
      to: { path: "^src/app/.+/", pathNot: "/index\\.ts$" },
    },
    {
      name: "through-the-face",
      severity: "error",
      comment: "a room of core is entered through its index.ts or its types",
      from: { path: "^src/(core/[^/]+|[^/]+)/", pathNot: ["\\.test\\.ts$"] },
      to: {
        path: `${core}[^/]+/.+`,
        pathNot: [`${core}[^/]+/index\\.ts$`, `${core}[^/]+/(reading-|made-)?types\\.ts$`, "^src/$1/"],
      },
    },
  ],
  options: {
    doNotFollow: { path: "node_modules" },
    exclude: { path: ["node_modules", "^dist/"] },
    tsConfig: { fileName: "tsconfig.json" },
    tsPreCompilationDeps: true,
    enhancedResolveOptions: { extensions: [".ts", ".tsx", ".js", ".mjs"] },
  },
};
