import { ChevronLeft, ChevronRight } from "lucide-react";
import { useEffect, useRef, useState } from "react";
import { PRINT_PAGE } from "../../words/index.ts";
import { Dialog, Drawn, parts } from "../kit/index.ts";
import type { SeenPage } from "../model/compute/index.ts";
import styles from "./print.module.css";

/** Every page of a print, small; a tap shows one large. */
export function Pages({ pages }: { readonly pages: readonly SeenPage[] }) {
  const [large, setLarge] = useState<number>();
  const open = large === undefined ? undefined : pages[large];
  return (
    <>
      <ol className={styles.pages} aria-label={PRINT_PAGE.preview}>
        {pages.map((page, i) => (
          // a page has no name of its own but its number
          // biome-ignore lint/suspicious/noArrayIndexKey: see above
          <li key={i}>
            <Small page={page} n={i + 1} of={pages.length} onOpen={() => setLarge(i)} />
          </li>
        ))}
      </ol>
      {open && large !== undefined && (
        <Dialog
          title={PRINT_PAGE.page(large + 1, pages.length, open.name)}
          wide
          onClose={() => setLarge(undefined)}
        >
          <div className={parts.row}>
            <button type="button" disabled={large === 0} onClick={() => setLarge(large - 1)}>
              <ChevronLeft aria-hidden /> {PRINT_PAGE.previous}
            </button>
            <button type="button" disabled={large === pages.length - 1} onClick={() => setLarge(large + 1)}>
              {PRINT_PAGE.next} <ChevronRight aria-hidden />
            </button>
          </div>
          <Drawn svg={open.svg} label={open.name} />
        </Dialog>
      )}
    </>
  );
}

/** Drawn once it comes near the part that is seen: a print may have hundreds of pages. */
function Small(props: {
  readonly page: SeenPage;
  readonly n: number;
  readonly of: number;
  readonly onOpen: () => void;
}) {
  const { page, n, of, onOpen } = props;
  const ref = useRef<HTMLButtonElement>(null);
  const [isNear, setNear] = useState(false);
  useEffect(() => {
    if (!ref.current) return;
    const watch = new IntersectionObserver(
      (entries) => setNear(entries.some((entry) => entry.isIntersecting)),
      // the part of the page that scrolls: beyond its own edge nothing is near by the window's margin
      { root: scroller(ref.current), rootMargin: "400px" },
    );
    watch.observe(ref.current);
    return () => watch.disconnect();
  }, []);
  return (
    <button type="button" ref={ref} className={styles.page} onClick={onOpen}>
      <span className={styles.sheet}>
        {isNear ? <Drawn svg={page.svg} /> : <svg aria-hidden viewBox={`0 0 ${page.width} ${page.height}`} />}
      </span>
      <span>{PRINT_PAGE.page(n, of, page.name)}</span>
      {page.isTrueSize && <em>{PRINT_PAGE.isTrueSize}</em>}
    </button>
  );
}

/** What an element scrolls in, on this size of screen. */
function scroller(of: Element): Element | null {
  for (let at = of.parentElement; at; at = at.parentElement)
    if (getComputedStyle(at).overflowY === "auto") return at;
  return null;
}
