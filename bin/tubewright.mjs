#!/usr/bin/env node
import { existsSync } from "node:fs";

const built = new URL("../dist/cli.mjs", import.meta.url);
if (existsSync(built)) await import(built);
else {
  console.error("tubewright is not built yet: run npm ci in its folder");
  process.exitCode = 2;
}
