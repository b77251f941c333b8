import { type KeyboardEvent, type PointerEvent, type RefObject, useEffect, useRef, useState } from "react";
import { VIEW_KEYS } from "../../words/index.ts";
import type { Viewer } from "./types.ts";

/**
 * The bar that a hovering mouse is on, or that the keys have stepped to; null: none. `on` goes on the canvas. A finger
 * does not hover: whatever is said of a bar pointed at is in the panel of the bar taken, too.
 */
export function usePointed(
  viewer: RefObject<Viewer | undefined>,
  bars: ReadonlyMap<string, unknown>,
  take: (id: string) => void,
) {
  const [id, setId] = useState<string | null>(null);
  const asked = useRef(0);
  const shown = id !== null && bars.has(id) ? id : null;
  useEffect(() => {
    viewer.current?.setPointed(shown);
  }, [viewer, shown]);
  useEffect(() => () => cancelAnimationFrame(asked.current), []);

  function leave(): void {
    cancelAnimationFrame(asked.current);
    setId(null);
  }
  function move(e: PointerEvent<HTMLCanvasElement>): void {
    if (e.pointerType === "touch" || e.buttons !== 0) return;
    const box = e.currentTarget.getBoundingClientRect();
    const [x, y] = [e.clientX - box.left, e.clientY - box.top];
    // once a picture: a mouse says where it is far oftener
    cancelAnimationFrame(asked.current);
    asked.current = requestAnimationFrame(() => setId(viewer.current?.barAt(x, y) ?? null));
  }
  function key(e: KeyboardEvent): void {
    if (e.altKey || e.ctrlKey || e.metaKey) return;
    const by = { [VIEW_KEYS.next.key]: 1, [VIEW_KEYS.before.key]: -1 }[e.key];
    if (by !== undefined) {
      const ids = [...bars.keys()];
      const at = shown === null ? (by > 0 ? -1 : 0) : ids.indexOf(shown);
      setId(ids.at((at + by) % ids.length) ?? null);
    } else if (e.key === VIEW_KEYS.take.key && shown !== null) take(shown);
    else if (e.key === VIEW_KEYS.leave.key && shown !== null) leave();
    else return;
    e.preventDefault();
    e.stopPropagation();
  }
  return { id: shown, on: { onPointerMove: move, onPointerLeave: leave, onBlur: leave, onKeyDown: key } };
}
