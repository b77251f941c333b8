/** Whether a part of the page may take the focus over from what stood in it. */
const isPart = (e: Element): boolean => e.matches("dialog, section, nav, main");

/** In the page and to be seen: what waits for its successor to be loaded is still there, but hidden. */
const isThere = (e: HTMLElement): boolean => e.isConnected && e.getClientRects().length > 0;

/**
 * Keeps the place of one who works by keys: where what has the focus goes away, is hidden or is switched off, the part of the page
 * that it stood in takes the focus, and the next Tab goes on from there. Browsers let it fall to the top of the page.
 */
export function keepFocus(root: HTMLElement): void {
  /** What had the focus last, and all that it stood in, from the inside out. */
  let around: readonly HTMLElement[] = [];
  root.addEventListener("focusin", ({ target }) => {
    const list: HTMLElement[] = [];
    for (let e = target; e instanceof HTMLElement && e !== root; e = e.parentElement) list.push(e);
    around = list;
  });
  new MutationObserver(() => {
    const now = document.activeElement;
    const [had] = around;
    if (!had || (now !== null && now !== document.body && now !== had)) return;
    if (isThere(had) && !had.matches(":disabled")) return;
    const part = around.find((e) => e !== had && isThere(e) && isPart(e)) ?? root.querySelector("main");
    if (!part) return;
    part.tabIndex = -1;
    part.focus({ preventScroll: true });
  }).observe(root, { childList: true, subtree: true, attributes: true, attributeFilter: ["disabled"] });
}
