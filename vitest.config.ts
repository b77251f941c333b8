import { defineConfig } from "vitest/config";

const shared = { testTimeout: 60_000, allowOnly: false, passWithNoTests: false };
const BROWSER = "tests/browser/**/*.test.ts";

/**
 * First what needs no browser, on every core; then the browser, one page at a time, since it has a core for itself and
 * one for its graphics, and what a hand does is timed.
 */
export default defineConfig({
  test: {
    ...shared,
    projects: [
      {
        test: {
          ...shared,
          name: "without a browser",
          include: ["src/**/*.test.ts", "tests/**/*.test.ts"],
          exclude: [BROWSER, "**/node_modules/**"],
          maxWorkers: "100%",
          sequence: { groupOrder: 0 },
        },
      },
      {
        test: {
          ...shared,
          name: "browser",
          include: [BROWSER],
          maxWorkers: 1,
          sequence: { groupOrder: 1 },
        },
      },
    ],
  },
});
