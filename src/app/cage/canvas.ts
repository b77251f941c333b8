import { LinearSRGBColorSpace, WebGLRenderer, WebGLRenderTarget } from "three";

/** The renderer's types leave out its way to draw into a frame made elsewhere. */
type WithFrames = WebGLRenderer & {
  setRenderTargetFramebuffer(target: WebGLRenderTarget, frame: WebGLFramebuffer): void;
};

/** Samples a pixel in a smooth picture. */
const SAMPLES = 4;
/** A smooth picture that is done within this (ms) is no hindrance to motion. */
const QUICK = 8;
/** How often to look whether a picture is done (ms). */
const LOOK = 2;

/**
 * The canvas's pixels, drawn plain or smooth. Smoothing costs little on a graphics card and two thirds of the time
 * without one, so how long it takes is measured, and the viewer goes without it in motion where it is slow.
 */
export class Canvas {
  readonly renderer: WebGLRenderer;
  /** Whether pictures in motion can be smooth, too; not before one was measured. */
  isQuick = false;
  private readonly gl: WebGL2RenderingContext;
  private readonly target = new WebGLRenderTarget(1, 1, { depthBuffer: true });
  private buffers:
    | { readonly frame: WebGLFramebuffer; readonly parts: readonly WebGLRenderbuffer[] }
    | undefined;
  private looking: ReturnType<typeof setTimeout> | undefined;

  /** Throws where the device has no WebGL 2. */
  constructor(canvas: HTMLCanvasElement) {
    this.renderer = new WebGLRenderer({
      canvas,
      antialias: false,
      powerPreference: "high-performance",
      // a part of a draft is drawn anew over the rest of it
      preserveDrawingBuffer: true,
    });
    this.renderer.autoClear = false;
    // Colours go out as they are; one way for both kinds of picture, so that each program is made once.
    this.renderer.outputColorSpace = LinearSRGBColorSpace;
    this.gl = this.renderer.getContext() as WebGL2RenderingContext;
  }

  /** Pixels of the canvas, and device pixels to a CSS pixel. */
  size(width: number, height: number, ratio: number): void {
    const { renderer, target } = this;
    const { domElement } = renderer;
    if (renderer.getPixelRatio() !== ratio) renderer.setPixelRatio(ratio);
    if (domElement.width !== Math.floor(width * ratio) || domElement.height !== Math.floor(height * ratio)) {
      renderer.setSize(width, height, false);
    }
    if (target.width !== domElement.width || target.height !== domElement.height) {
      target.setSize(domElement.width, domElement.height);
      this.drop();
    }
  }

  /** `onDone` is called once the graphics are done with the picture, unless another was begun meanwhile. */
  draw(isSmooth: boolean, paint: () => void, onDone: () => void): void {
    const began = performance.now();
    if (isSmooth) this.smooth(paint);
    else paint();
    this.wait(() => {
      if (isSmooth) this.isQuick = performance.now() - began < QUICK;
      onDone();
    });
  }

  private smooth(paint: () => void): void {
    const { renderer, gl, target } = this;
    const { width, height } = target;
    this.buffers ??= this.make(width, height);
    (renderer as WithFrames).setRenderTargetFramebuffer(target, this.buffers.frame);
    renderer.setRenderTarget(target);
    paint();
    renderer.setRenderTarget(null);
    gl.bindFramebuffer(gl.READ_FRAMEBUFFER, this.buffers.frame);
    gl.blitFramebuffer(0, 0, width, height, 0, 0, width, height, gl.COLOR_BUFFER_BIT, gl.NEAREST);
    gl.bindFramebuffer(gl.READ_FRAMEBUFFER, null);
  }

  /** The context is gone, and all that was made in it. */
  lost(): void {
    this.buffers = undefined;
    clearTimeout(this.looking);
  }

  dispose(): void {
    clearTimeout(this.looking);
    this.drop();
    this.target.dispose();
    this.renderer.dispose();
  }

  private make(width: number, height: number): NonNullable<Canvas["buffers"]> {
    const { gl } = this;
    const samples = Math.min(SAMPLES, gl.getParameter(gl.MAX_SAMPLES) as number);
    const frame = gl.createFramebuffer();
    gl.bindFramebuffer(gl.FRAMEBUFFER, frame);
    const part = (format: number, to: number): WebGLRenderbuffer => {
      const buffer = gl.createRenderbuffer();
      gl.bindRenderbuffer(gl.RENDERBUFFER, buffer);
      gl.renderbufferStorageMultisample(gl.RENDERBUFFER, samples, format, width, height);
      gl.framebufferRenderbuffer(gl.FRAMEBUFFER, to, gl.RENDERBUFFER, buffer);
      return buffer;
    };
    const parts = [part(gl.RGBA8, gl.COLOR_ATTACHMENT0), part(gl.DEPTH_COMPONENT24, gl.DEPTH_ATTACHMENT)];
    gl.bindRenderbuffer(gl.RENDERBUFFER, null);
    gl.bindFramebuffer(gl.FRAMEBUFFER, null);
    this.renderer.resetState();
    return { frame, parts };
  }

  private drop(): void {
    if (!this.buffers) return;
    this.gl.deleteFramebuffer(this.buffers.frame);
    for (const part of this.buffers.parts) this.gl.deleteRenderbuffer(part);
    this.buffers = undefined;
  }

  /** Looks now and then whether the graphics are done, without holding the page. */
  private wait(onDone: () => void): void {
    const { gl } = this;
    const done = gl.fenceSync(gl.SYNC_GPU_COMMANDS_COMPLETE, 0);
    gl.flush();
    clearTimeout(this.looking);
    const look = (): void => {
      if (done && gl.getSyncParameter(done, gl.SYNC_STATUS) !== gl.SIGNALED) {
        this.looking = setTimeout(look, LOOK);
        return;
      }
      gl.deleteSync(done);
      onDone();
    };
    this.looking = setTimeout(look, LOOK);
  }
}
