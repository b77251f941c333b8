import type { App } from "../src/app/model/state/state.ts";

/** What runs in the page is given as it stands, so it may use nothing but its arguments and what `watch` left there. */
export interface Watched {
  tubewright: App;
  /** Calls that drew something, and the graphics context that they went to. */
  drawn: number;
  gl: WebGL2RenderingContext | undefined;
  /** Tasks that held the page for more than 50 ms: when each began and how long it took (ms). */
  long: [number, number][];
  /** When the first picture that holds the cage was done (ms after the navigation began). */
  cage: number | undefined;
}

/** Before any script of the page: counts what is drawn, and the tasks that hold the page. */
export function watch(): void {
  const page = window as unknown as Watched;
  Object.assign(page, { drawn: 0, gl: undefined, long: [], cage: undefined });
  const { prototype } = WebGL2RenderingContext;
  const { drawElements } = prototype;
  prototype.drawElements = function (mode, count, type, offset) {
    page.drawn++;
    page.gl = this;
    drawElements.call(this, mode, count, type, offset);
    // The bars' surfaces are by far the longest lists; the axes' marker and plates are short.
    if (page.cage !== undefined || count < 6000) return;
    page.cage = 0;
    const pixel = new Uint8Array(4);
    queueMicrotask(() => {
      this.readPixels(0, 0, 1, 1, this.RGBA, this.UNSIGNED_BYTE, pixel);
      page.cage = performance.now();
    });
  };
  new PerformanceObserver((list) => {
    for (const entry of list.getEntries()) page.long.push([entry.startTime, entry.duration]);
  }).observe({ type: "longtask", buffered: true });
}

/** One value of the job in hand, to be moved: where it stands in the document, and by how much each time. */
export interface Drag {
  readonly path: readonly (string | number)[];
  readonly step: number;
  readonly times: number;
  /** Waits for the graphics to finish each picture, which holds the page meanwhile. */
  readonly isRead: boolean;
}

export interface Dragged {
  /**
   * From the command to the picture done, of every step (ms). The window's own composing, which puts it on the glass
   * with the next frame, is not in it: without a graphics card it takes as long again, whatever is drawn.
   */
  readonly redrawn: number[];
  /** The worker's own time for each. */
  readonly computed: number[];
  /** How many bars moved. */
  readonly moved: number[];
  /** The longest task that held the page (ms); 0: none of more than 50 ms. */
  readonly held: number;
}

/** Moves a value to and fro by steps, as a finger does: one gesture, each step at the beginning of a frame. */
export async function drag({ path, step, times, isRead }: Drag): Promise<Dragged> {
  const page = window as unknown as Watched;
  const app = page.tubewright;
  const gl = page.gl!;
  const pixel = new Uint8Array(4);
  const redrawn: number[] = [];
  const computed: number[] = [];
  const moved: number[] = [];
  type Tree = { readonly [key: string | number]: Tree } & number;
  const read = (tree: Tree): number => path.reduce<Tree>((at, key) => at[key]!, tree);
  const written = (tree: Tree, value: number, at = 0): Tree => {
    if (at === path.length) return value as Tree;
    const copy = (Array.isArray(tree) ? [...tree] : { ...(tree as object) }) as Record<string | number, Tree>;
    copy[path[at]!] = written(tree[path[at]!]!, value, at + 1);
    return copy as Tree;
  };
  const frame = (): Promise<number> => new Promise((done) => requestAnimationFrame(done));
  const turn = (): Promise<void> =>
    new Promise((done) => {
      const { port1, port2 } = new MessageChannel();
      port1.onmessage = () => {
        port1.close();
        done();
      };
      port2.postMessage(0);
    });
  const start = read(app.state.getState().job!.document as unknown as Tree);
  await new Promise((done) => setTimeout(done, 500));
  page.long.length = 0;
  for (let i = 1; i <= times; i++) {
    await frame();
    const began = performance.now();
    const before = page.drawn;
    // Ten steps there, ten back.
    const value = start + step * (10 - Math.abs((i % 20) - 10));
    const outcome = app.do.run(
      {
        name: "dragged",
        edit: (document) => ({
          ok: true,
          document: written(document as unknown as Tree, value) as unknown as typeof document,
        }),
      },
      "the bench's drag",
    );
    if (!outcome.ok) throw new Error(outcome.lines[0]);
    const results = await app.computer.settled();
    // An edit is drawn when its task is over, not in the frame to come: that one shows it.
    while (page.drawn === before) await turn();
    if (isRead) gl.readPixels(0, 0, 1, 1, gl.RGBA, gl.UNSIGNED_BYTE, pixel);
    redrawn.push(performance.now() - began);
    computed.push(results.took);
    moved.push(results.moved.length);
  }
  await new Promise((done) => setTimeout(done, 100));
  return { redrawn, computed, moved, held: Math.max(0, ...page.long.map(([, ms]) => ms)) };
}

/** What a turned picture takes (ms): until the page has issued it, and until the graphics are done with it. */
export interface Turned {
  readonly issued: number;
  readonly picture: number;
}

/** From the key that turns the picture on, with the frame that it waits for left out. */
export async function turned(times: number): Promise<Turned[]> {
  const { gl } = window as unknown as Watched;
  const canvas = gl!.canvas as HTMLCanvasElement;
  const pixel = new Uint8Array(4);
  const out: Turned[] = [];
  for (let i = 0; i < times; i++) {
    await new Promise((done) => setTimeout(done, 30));
    canvas.dispatchEvent(new KeyboardEvent("keydown", { key: "ArrowRight" }));
    const began = await new Promise<number>((done) => {
      // Asked for after the viewer's own, so it comes right after it in the same frame.
      requestAnimationFrame((now) => done(now));
    });
    const issued = performance.now() - began;
    gl!.readPixels(0, 0, 1, 1, gl!.RGBA, gl!.UNSIGNED_BYTE, pixel);
    out.push({ issued, picture: performance.now() - began });
  }
  return out;
}
