import { readFileSync } from "node:fs";
import type { Page } from "playwright-core";

const demo = JSON.parse(readFileSync("demo/sandling.json", "utf8")) as { readonly bars: object };
/** The shop's own names, the longest first: each counts as one word, however long the shop makes it. */
const LABELS = Object.values(demo.bars)
  .map((bar) => (bar as { label?: string }).label ?? "")
  .filter((label) => label !== "")
  .sort((a, b) => b.length - a.length);

export const namesAsBars = (text: string): string =>
  LABELS.reduce((t, label) => t.replaceAll(label, "Bar"), text);

/** A line of a drawing, which may break a sentence anywhere. */
export const DRAWN = "drawn: ";

/** Every text in sight, by the block that it is in, and every name that a screen reader says. */
export const textsOf = (page: Page): Promise<readonly string[]> =>
  page.evaluate((drawn) => {
    const texts = new Map<Element, string>();
    const isSeen = (e: Element): boolean =>
      e.checkVisibility({ visibilityProperty: true, opacityProperty: true });
    const blockOf = (e: Element): Element => {
      let at = e;
      while (at.parentElement && getComputedStyle(at).display.startsWith("inline")) at = at.parentElement;
      return at;
    };
    const modal = document.querySelector("dialog[open]") ?? document.body;
    const walk = document.createTreeWalker(modal, NodeFilter.SHOW_TEXT);
    for (let node = walk.nextNode(); node; node = walk.nextNode()) {
      const parent = node.parentElement;
      const text = node.textContent?.trim() ?? "";
      if (!parent || text === "" || parent.closest("script, style") || !isSeen(parent)) continue;
      const block = parent instanceof SVGElement ? parent : blockOf(parent);
      texts.set(block, `${texts.get(block) ?? ""} ${text}`.trim());
    }
    const names = [...modal.querySelectorAll("*")].filter(isSeen).flatMap((e) =>
      ["aria-label", "aria-valuetext", "aria-description", "title", "placeholder", "alt"].flatMap((name) => {
        const value = e.getAttribute(name)?.trim();
        return value ? [value] : [];
      }),
    );
    const read = [...texts].map(([block, text]) => (block instanceof SVGElement ? `${drawn}${text}` : text));
    return [...read, ...names].map((text) => text.replace(/\s+/g, " ").replace(/ ([.,;:])/g, "$1"));
  }, DRAWN);
