import { readFileSync } from "node:fs";
import { createRequire } from "node:module";
import type { AxeResults, RunOptions } from "axe-core";
import type { Page } from "playwright-core";

const AXE = readFileSync(createRequire(import.meta.url).resolve("axe-core/axe.min.js"), "utf8");

/** The checks' own options are taken by `run` too, though its types leave them out. */
type How = RunOptions & { readonly checks: unknown };
type Axe = { run(where: unknown, how: How): Promise<AxeResults> };

/** Figures and step words stand out 7 : 1 in the light of an open door; everything else 4.5 : 1, however large. */
const STRONG = [".stage-huge", ".stage-does", ".stage-step-says", ".answer-figure", ".answers-figure"];
const ratio = (expected: number) => ({
  options: { contrastRatio: { normal: { expected }, large: { expected } } },
});
const CHECKS = { "color-contrast": ratio(4.5), "color-contrast-enhanced": ratio(7) };

/** What axe finds serious or worse, each with its place, and how many figures and step words it found to stand out. */
export async function looked(
  page: Page,
  rules: "all" | "contrast",
): Promise<{ bad: string[]; strong: number }> {
  await page.evaluate(AXE);
  const options: How = {
    checks: CHECKS,
    ...(rules === "all"
      ? { rules: { "color-contrast-enhanced": { enabled: true } } }
      : { runOnly: ["color-contrast", "color-contrast-enhanced"] }),
  };
  return page.evaluate(
    async ([how, strong]) => {
      const { violations, passes } = await (window as unknown as { axe: Axe }).axe.run(document, how);
      const is = (target: unknown): boolean =>
        strong.some((one) => document.querySelector(String(target))?.closest(one) != null);
      const bad = violations
        .filter((v) => v.impact === "serious" || v.impact === "critical")
        .flatMap((v) =>
          v.nodes
            .filter((n) => v.id !== "color-contrast-enhanced" || is(n.target[0]))
            .map((n) => `${v.id}: ${n.target.join(" ")} ${n.failureSummary?.split("\n")[1]?.trim() ?? ""}`),
        );
      const good = passes.find((p) => p.id === "color-contrast-enhanced")?.nodes ?? [];
      return { bad, strong: good.filter((n) => is(n.target[0])).length };
    },
    [options, STRONG] as const,
  );
}
