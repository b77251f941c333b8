import { readFileSync } from "node:fs";
import { expect, it } from "vitest";
import { JOIN_CSS } from "./join-style.ts";

it("the page to join has the colours of the app", () => {
  const tokens = readFileSync("src/app/tokens.css", "utf8").split('[data-theme="dark"]')[0] ?? "";
  const light = new Set(tokens.match(/#[0-9a-f]{6}\b/g));
  const used = JOIN_CSS.match(/#[0-9a-f]{6}\b/g) ?? [];
  expect(used.length).toBeGreaterThan(8);
  expect(used.filter((colour) => !light.has(colour))).toEqual([]);
});
