import { type KeyboardEvent, type RefObject, useEffect, useLayoutEffect, useRef } from "react";
import { VIEW } from "../../words/index.ts";
import { STRAIGHT_VIEWS } from "./camera.ts";
import type { Viewer } from "./types.ts";
import styles from "./views-menu.module.css";

/** Degrees a turn of the menu turns, and how much it zooms. */
const [TURN, ZOOM] = [15, 1.4];
const STEPS: Readonly<Record<string, number>> = { ArrowDown: 1, ArrowRight: 1, ArrowUp: -1, ArrowLeft: -1 };

interface Item {
  readonly says: string;
  readonly does: (viewer: Viewer) => void;
  /** Done again and again: the menu stays open. */
  readonly stays?: true;
}

const ALL: readonly Item[] = [
  { says: VIEW.all, does: (v) => v.fit() },
  { says: VIEW.threeQuarter, does: (v) => v.look("three-quarter") },
];
const STRAIGHT = STRAIGHT_VIEWS.map(
  (view): Item => ({ says: VIEW.straight[view], does: (v) => v.look(view) }),
);
const STEPWISE: readonly Item[] = [
  { says: VIEW.turnLeft, does: (v) => v.turn(-TURN, 0), stays: true },
  { says: VIEW.turnRight, does: (v) => v.turn(TURN, 0), stays: true },
  { says: VIEW.closer, does: (v) => v.zoom(ZOOM), stays: true },
  { says: VIEW.farther, does: (v) => v.zoom(1 / ZOOM), stays: true },
];

/** The views of the picture; above its button where there is more room, else below, over all that the page shows. */
export function ViewsMenu(props: {
  readonly viewer: RefObject<Viewer | undefined>;
  readonly opener: RefObject<HTMLButtonElement | null>;
  readonly small: boolean | undefined;
  readonly onClose: () => void;
}) {
  const { viewer, opener, onClose } = props;
  const menu = useRef<HTMLDivElement>(null);
  const items = [...ALL, ...(props.small ? [] : STRAIGHT), ...STEPWISE];

  useLayoutEffect(() => {
    const [box, at] = [menu.current, opener.current?.getBoundingClientRect()];
    if (!box || !at) return;
    box.showPopover();
    const isAbove = at.top > innerHeight - at.bottom;
    box.style.left = `${Math.max(6, Math.min(at.left, innerWidth - box.offsetWidth - 6))}px`;
    box.style[isAbove ? "bottom" : "top"] = `${isAbove ? innerHeight - at.top + 6 : at.bottom + 6}px`;
    box.style.maxHeight = `${(isAbove ? at.top : innerHeight - at.bottom) - 12}px`;
    box.querySelector("button")?.focus();
  }, [opener]);
  useEffect(() => {
    const elsewhere = (e: PointerEvent): void => {
      const on = e.target as Node;
      if (!menu.current?.contains(on) && !opener.current?.contains(on)) onClose();
    };
    document.addEventListener("pointerdown", elsewhere, true);
    return () => document.removeEventListener("pointerdown", elsewhere, true);
  }, [opener, onClose]);

  function close(): void {
    opener.current?.focus();
    onClose();
  }
  function key(e: KeyboardEvent): void {
    const all = [...(menu.current?.querySelectorAll("button") ?? [])];
    const at = all.indexOf(document.activeElement as HTMLButtonElement);
    const by = STEPS[e.key];
    const named =
      e.key.length === 1 && e.key !== " "
        ? [...all.slice(at + 1), ...all].find((b) =>
            b.textContent?.toLowerCase().startsWith(e.key.toLowerCase()),
          )
        : undefined;
    if (by !== undefined) all[(at + by + all.length) % all.length]?.focus();
    else if (e.key === "Home") all[0]?.focus();
    else if (e.key === "End") all.at(-1)?.focus();
    else if (e.key === "Escape" || e.key === "Tab") close();
    else if (named) named.focus();
    else return;
    e.stopPropagation();
    // with Tab the focus goes on from the menu's button
    if (e.key !== "Tab") e.preventDefault();
  }

  return (
    <div
      ref={menu}
      className={styles.menu}
      role="menu"
      aria-label={VIEW.views}
      popover="manual"
      onKeyDown={key}
    >
      {items.map(({ says, does, stays }) => (
        <button
          key={says}
          type="button"
          role="menuitem"
          tabIndex={-1}
          onClick={() => {
            if (viewer.current) does(viewer.current);
            if (!stays) close();
          }}
        >
          {says}
        </button>
      ))}
    </div>
  );
}
