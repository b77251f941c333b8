import { THREE_QUARTER } from "./camera.ts";
import type { Viewer, ViewerOptions } from "./types.ts";

/** The viewer's program, which is half of what the page is made of. Asked for early, it comes while the job is opened. */
export const loadViewer = (): Promise<typeof import("./viewer.ts")> => import("./viewer.ts");

/**
 * The cage on a canvas, as soon as its program is there; what is asked of it before is done then, in order.
 * `onFailure` is told where the device has no WebGL 2, or the program cannot be had.
 */
export function createViewer(canvas: HTMLCanvasElement, options: ViewerOptions): Viewer {
  let viewer: Viewer | undefined;
  let isGone = false;
  const waiting: ((viewer: Viewer) => void)[] = [];
  const tell = (what: (viewer: Viewer) => void): void => {
    if (viewer) what(viewer);
    else waiting.push(what);
  };
  loadViewer()
    .then((program) => {
      if (isGone) return;
      viewer = program.createViewer(canvas, options);
      for (const what of waiting.splice(0)) what(viewer);
    })
    .catch((error: unknown) => options.onFailure?.(error));
  return {
    setBars: (bars) => tell((v) => v.setBars(bars)),
    setExtras: (extras) => tell((v) => v.setExtras(extras)),
    setInHand: (id, points) => tell((v) => v.setInHand(id, points)),
    setNames: (isOn, hasBars) => tell((v) => v.setNames(isOn, hasBars)),
    setSection: (section) => tell((v) => v.setSection(section)),
    setStaging: (staging) => tell((v) => v.setStaging(staging)),
    setTheme: (theme) => tell((v) => v.setTheme(theme)),
    look: (view) => tell((v) => v.look(view)),
    lookFrom: (direction) => tell((v) => v.lookFrom(direction)),
    fit: (ids) => tell((v) => v.fit(ids)),
    bring: (ids) => tell((v) => v.bring(ids)),
    turn: (right, up) => tell((v) => v.turn(right, up)),
    zoom: (factor) => tell((v) => v.zoom(factor)),
    barAt: (x, y) => viewer?.barAt(x, y) ?? null,
    setPointed: (id) => tell((v) => v.setPointed(id)),
    camera: () => viewer?.camera() ?? { ...THREE_QUARTER, target: [0, 0, 0], height: 1, perspective: 1 },
    drawn: () => viewer?.drawn() ?? { frames: 0, ms: 0, isSmooth: false, isPart: false },
    dispose() {
      isGone = true;
      viewer?.dispose();
    },
  };
}
