// biome-ignore-all lint/style/noNonNullAssertion: there is an arm for every axis.
import {
  type Mesh,
  OrthographicCamera,
  type Points,
  type Quaternion,
  Scene,
  Vector3,
  type WebGLRenderer,
} from "three";
import { axisWords } from "./axis-words.ts";
import { lineObject } from "./lines.ts";
import { marked, WORD, word } from "./marks.ts";
import type { Materials } from "./materials.ts";
import type { Box } from "./thin.ts";

/** The square that it has (CSS pixels), and how long an arm across the line of sight is in it. */
const SIZE = 128;
const ARM = 22;
/** Below this width of a picture the buttons take the whole of its foot (CSS pixels). */
const NARROW = 560;
/** Half of what the square shows, in arms of length 1. */
const HALF = SIZE / 2 / ARM;
const AXES = [
  ["front", [1, 0, 0]],
  ["left", [0, 1, 0]],
  ["up", [0, 0, 1]],
] as const;

/** Where it is in a picture of this size (CSS pixels from the upper left): lower right, or upper right of a narrow one. */
export const markerAt = ([width, height]: readonly [number, number]): Box => ({
  x: width - SIZE - 4,
  y: width < NARROW ? 0 : height - SIZE - 4,
  width: SIZE,
  height: SIZE,
});

/** The axes in a corner of the picture, by their words: front, left, up. */
export class Marker {
  private readonly scene = new Scene();
  private readonly camera = new OrthographicCamera(-HALF, HALF, HALF, -HALF, -5, 5);
  private readonly arms: readonly { readonly way: Vector3; readonly line: Mesh; readonly word: Points }[];

  constructor(materials: Materials) {
    this.arms = AXES.map(([name, way]) => {
      const text = marked(new Float32Array(3), materials.mark(word(name)));
      text.renderOrder = 2;
      text.frustumCulled = false;
      const line = lineObject(
        Float32Array.from([0, 0, 0, ...way]),
        materials.line("ink", 1.2, "solid", true),
      );
      return { way: new Vector3(...way), line, word: text };
    });
    for (const { line, word: text } of this.arms) this.scene.add(line, text);
  }

  /** Drawn after the picture, where no button is. */
  draw(renderer: WebGLRenderer, materials: Materials, turned: Quaternion, height: number): void {
    const { x, y } = materials.viewport.value;
    const ratio = materials.ratio.value;
    const pixel = materials.pixel.value;
    this.camera.quaternion.copy(turned);
    this.camera.updateMatrixWorld();
    this.place(turned);
    const depth = materials.depth.value.clone();
    materials.depth.value.set(0, 0);
    materials.setScale(SIZE * ratio, SIZE * ratio, ratio, (2 * HALF) / SIZE);
    const at = markerAt([x / ratio, height]);
    renderer.setViewport(at.x, height - at.y - SIZE, SIZE, SIZE);
    renderer.clearDepth();
    renderer.render(this.scene, this.camera);
    renderer.setViewport(0, 0, x / ratio, height);
    materials.setScale(x, y, ratio, pixel);
    materials.depth.value.copy(depth);
  }

  private place(turned: Quaternion): void {
    const [right, up, toward] = [0, 1, 2].map((k) =>
      new Vector3().setComponent(k, 1).applyQuaternion(turned),
    ) as [Vector3, Vector3, Vector3];
    const tips = this.arms.map(({ way }) => ({ x: ARM * way.dot(right), y: -ARM * way.dot(up) }));
    const words = axisWords(
      tips.map((tip, i) => ({ tip, width: WORD.width[AXES[i]![0]], height: WORD.height })),
      SIZE / 2 - 1,
    );
    this.arms.forEach(({ line, word: text }, i) => {
      const at = words[i];
      line.visible = text.visible = at !== undefined;
      if (!at) return;
      // before the arms, so that nothing of them is over it
      text.position
        .copy(toward)
        .addScaledVector(right, at.x / ARM)
        .addScaledVector(up, -at.y / ARM);
    });
  }

  dispose(): void {
    this.scene.traverse((object) => {
      (object as { geometry?: { dispose(): void } }).geometry?.dispose();
    });
  }
}
