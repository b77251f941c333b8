import { Group, OrthographicCamera, type Quaternion, Scene, Vector3, type WebGLRenderer } from "three";
import { lineObject } from "./lines.ts";
import { marked, word } from "./marks.ts";
import type { Materials } from "./materials.ts";

const SIZE = 104;
/** Half of what the square shows, in arms of length 1. */
const HALF = 1.95;
/** An axis that points at the viewer or away, by more than this cosine, has no arm to show. */
const END_ON = 0.93;
const AXES = [
  ["front", [1, 0, 0]],
  ["left", [0, 1, 0]],
  ["up", [0, 0, 1]],
] as const;

/** The axes in a corner of the picture, by their words: front, left, up. */
export class Marker {
  private readonly scene = new Scene();
  private readonly camera = new OrthographicCamera(-HALF, HALF, HALF, -HALF, -5, 5);
  private readonly arms: readonly Group[];

  constructor(materials: Materials) {
    this.arms = AXES.map(([name, [x, y, z]]) => {
      const arm = new Group();
      const letter = marked(Float32Array.from([x * 1.35, y * 1.35, z * 1.35]), materials.mark(word(name)));
      letter.renderOrder = 2;
      arm.add(
        lineObject(Float32Array.from([0, 0, 0, x, y, z]), materials.line("ink", 1.2, "solid", true)),
        letter,
      );
      return arm;
    });
    this.scene.add(...this.arms);
  }

  /** Drawn into the lower right corner, after the picture: the views are in the left one. */
  draw(renderer: WebGLRenderer, materials: Materials, turned: Quaternion, height: number): void {
    const { x, y } = materials.viewport.value;
    const ratio = materials.ratio.value;
    const pixel = materials.pixel.value;
    this.camera.quaternion.copy(turned);
    this.camera.updateMatrixWorld();
    const sight = new Vector3(0, 0, 1).applyQuaternion(turned);
    this.arms.forEach((arm, i) => {
      arm.visible = Math.abs(sight.getComponent(i)) < END_ON;
    });
    const depth = materials.depth.value.clone();
    materials.depth.value.set(0, 0);
    materials.setScale(SIZE * ratio, SIZE * ratio, ratio, (2 * HALF) / SIZE);
    renderer.setViewport(x / ratio - SIZE - 4, 4, SIZE, SIZE);
    renderer.clearDepth();
    renderer.render(this.scene, this.camera);
    renderer.setViewport(0, 0, x / ratio, height);
    materials.setScale(x, y, ratio, pixel);
    materials.depth.value.copy(depth);
  }

  dispose(): void {
    this.scene.traverse((object) => {
      (object as { geometry?: { dispose(): void } }).geometry?.dispose();
    });
  }
}
