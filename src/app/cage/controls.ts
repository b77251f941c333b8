/** What hands and keys ask of the view; pixels are CSS pixels, x right, y down. */
export interface ControlTargets {
  turn(dx: number, dy: number): void;
  pan(dx: number, dy: number): void;
  /** Closer by `factor`, keeping what is at (x, y) of the canvas there. */
  zoom(factor: number, x: number, y: number): void;
  tap(x: number, y: number): void;
  /** The second tap of two on the same place; the first was a tap like any other. */
  centre(x: number, y: number): void;
  fit(): void;
}

/** A pointer that moved less than this since it came down is a tap (gloved fingers roll). */
const TAP = { mouse: 4, pen: 8, touch: 14 } as const;
/** Two taps within this time (ms) and no farther apart than this (CSS pixels) are a double tap. */
const TWICE = { ms: 400, mouse: 6, pen: 16, touch: 32 } as const;
/** Buttons of a mouse (PointerEvent.button) that may pan instead of the main one with shift. */
const [MIDDLE, SECOND] = [1, 2];
/** What a key does (CSS pixels of a drag; factor of a zoom). */
const ARROWS: Readonly<Record<string, readonly [number, number]>> = {
  ArrowLeft: [-40, 0],
  ArrowRight: [40, 0],
  ArrowUp: [0, -40],
  ArrowDown: [0, 40],
};
const CLOSER: Readonly<Record<string, number>> = { "+": 1.25, "=": 1.25, "-": 0.8 };

/**
 * One finger or the main button turns; two fingers zoom and pan, and so do the wheel (about the pointer) and a drag
 * with shift or another button; two taps centre, the first of which takes what it meets without a wait. Arrows turn,
 * with shift they pan, + and − zoom, Home fits. No hover, long press or other button is needed. Returns what removes it.
 */
export function attachControls(canvas: HTMLCanvasElement, to: ControlTargets): () => void {
  const down = new Map<number, { x: number; y: number }>();
  let start = { x: 0, y: 0 };
  let isTap = false;
  let pans = false;
  let last: { readonly x: number; readonly y: number; readonly at: number; readonly by: string } | undefined;
  const place = (e: MouseEvent): { x: number; y: number } => {
    const box = canvas.getBoundingClientRect();
    return { x: e.clientX - box.left, y: e.clientY - box.top };
  };

  const onDown = (e: PointerEvent): void => {
    if (e.pointerType === "mouse" && e.button > SECOND) return;
    canvas.setPointerCapture(e.pointerId);
    down.set(e.pointerId, place(e));
    pans = e.button === MIDDLE || e.button === SECOND;
    isTap = down.size === 1 && !pans;
    if (isTap) start = place(e);
  };
  /** A tap, or the second of two; of three the third is a first again. */
  const onTap = (e: PointerEvent): void => {
    const { x, y } = start;
    const apart = TWICE[e.pointerType as keyof typeof TAP] ?? TWICE.touch;
    const isSecond =
      last?.by === e.pointerType &&
      e.timeStamp - last.at < TWICE.ms &&
      Math.hypot(x - last.x, y - last.y) < apart;
    last = isSecond ? undefined : { x, y, at: e.timeStamp, by: e.pointerType };
    if (isSecond) to.centre(x, y);
    else to.tap(x, y);
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
      if (e.shiftKey || pans) to.pan(now.x - before.x, now.y - before.y);
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
    if (isTap && e.type === "pointerup") onTap(e);
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
  // a drag with another button opens no menu and scrolls nothing
  canvas.addEventListener("contextmenu", (e) => e.preventDefault(), { signal });
  canvas.addEventListener("mousedown", (e) => e.button === MIDDLE && e.preventDefault(), { signal });
  canvas.addEventListener("wheel", onWheel, { signal, passive: false });
  canvas.addEventListener("keydown", onKey, { signal });
  return () => off.abort();
}
