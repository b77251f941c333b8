/** What hands and keys ask of the view; pixels are CSS pixels, x right, y down. */
export interface ControlTargets {
  turn(dx: number, dy: number): void;
  pan(dx: number, dy: number): void;
  /** Closer by `factor`, keeping what is at (x, y) of the canvas there. */
  zoom(factor: number, x: number, y: number): void;
  tap(x: number, y: number): void;
  fit(): void;
}

/** A pointer that moved less than this since it came down is a tap (gloved fingers roll). */
const TAP = { mouse: 4, pen: 8, touch: 14 } as const;
/** What a key does (CSS pixels of a drag; factor of a zoom). */
const ARROWS: Readonly<Record<string, readonly [number, number]>> = {
  ArrowLeft: [-40, 0],
  ArrowRight: [40, 0],
  ArrowUp: [0, -40],
  ArrowDown: [0, 40],
};
const CLOSER: Readonly<Record<string, number>> = { "+": 1.25, "=": 1.25, "-": 0.8 };

/**
 * One finger or the main button turns, two fingers zoom and pan, the wheel zooms, shift with a drag pans; arrows turn,
 * with shift they pan, + and − zoom, Home fits. No hover, long press or other button is needed. Returns what removes it.
 */
export function attachControls(canvas: HTMLCanvasElement, to: ControlTargets): () => void {
  const down = new Map<number, { x: number; y: number }>();
  let start = { x: 0, y: 0 };
  let isTap = false;
  const place = (e: MouseEvent): { x: number; y: number } => {
    const box = canvas.getBoundingClientRect();
    return { x: e.clientX - box.left, y: e.clientY - box.top };
  };

  const onDown = (e: PointerEvent): void => {
    if (e.pointerType === "mouse" && e.button !== 0) return;
    canvas.setPointerCapture(e.pointerId);
    down.set(e.pointerId, place(e));
    isTap = down.size === 1;
    if (isTap) start = place(e);
  };
  const onMove = (e: PointerEvent): void => {
    const before = down.get(e.pointerId);
    if (!before) return;
    const now = place(e);
    if (isTap) {
      const slack = TAP[e.pointerType as keyof typeof TAP] ?? TAP.touch;
      if (Math.hypot(now.x - start.x, now.y - start.y) < slack) return;
      isTap = false;
    }
    if (down.size === 1) {
      if (e.shiftKey) to.pan(now.x - before.x, now.y - before.y);
      else to.turn(now.x - before.x, now.y - before.y);
    } else if (down.size === 2) {
      const [, other] = [...down].find(([id]) => id !== e.pointerId) ?? [];
      if (!other) return;
      const spread = (p: { x: number; y: number }): number => Math.hypot(p.x - other.x, p.y - other.y);
      to.pan((now.x - before.x) / 2, (now.y - before.y) / 2);
      if (spread(before) > 1) {
        to.zoom(spread(now) / spread(before), (now.x + other.x) / 2, (now.y + other.y) / 2);
      }
    }
    down.set(e.pointerId, now);
  };
  const onUp = (e: PointerEvent): void => {
    if (!down.delete(e.pointerId)) return;
    if (isTap && e.type === "pointerup") to.tap(start.x, start.y);
    isTap = false;
  };
  const onWheel = (e: WheelEvent): void => {
    e.preventDefault();
    const lines = e.deltaMode === WheelEvent.DOM_DELTA_LINE ? 16 : 1;
    const { x, y } = place(e);
    to.zoom(Math.exp(-e.deltaY * lines * 0.0015), x, y);
  };
  const onKey = (e: KeyboardEvent): void => {
    if (e.altKey || e.ctrlKey || e.metaKey) return;
    const arrow = ARROWS[e.key];
    const factor = CLOSER[e.key];
    if (arrow) (e.shiftKey ? to.pan : to.turn)(...arrow);
    else if (factor) to.zoom(factor, canvas.clientWidth / 2, canvas.clientHeight / 2);
    else if (e.key === "Home") to.fit();
    else return;
    e.preventDefault();
  };

  canvas.style.touchAction = "none";
  if (canvas.tabIndex < 0) canvas.tabIndex = 0;
  const off = new AbortController();
  const { signal } = off;
  canvas.addEventListener("pointerdown", onDown, { signal });
  canvas.addEventListener("pointermove", onMove, { signal });
  canvas.addEventListener("pointerup", onUp, { signal });
  canvas.addEventListener("pointercancel", onUp, { signal });
  canvas.addEventListener("wheel", onWheel, { signal, passive: false });
  canvas.addEventListener("keydown", onKey, { signal });
  return () => off.abort();
}
