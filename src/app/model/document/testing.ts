import { readFileSync } from "node:fs";
import type { JobDocument } from "../../../shared/index.ts";

/** Jobs for tests. */
export const demo = (): JobDocument =>
  JSON.parse(readFileSync(new URL("../../../../demo/sandling.json", import.meta.url), "utf8"));

export const frame = (): JobDocument =>
  JSON.parse(readFileSync(new URL("../../../../tests/corpus/trial-frame.json", import.meta.url), "utf8"));
