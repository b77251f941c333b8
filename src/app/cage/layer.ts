// biome-ignore-all lint/style/noNonNullAssertion: `count` is at most the length of the indices that are added.
import {
  BufferAttribute,
  BufferGeometry,
  DynamicDrawUsage,
  Group,
  Mesh,
  type ShaderMaterial,
  Sphere,
} from "three";
import type { Arena } from "./arena.ts";

interface Batch {
  readonly arena: Arena;
  readonly mesh: Mesh;
  index: Uint32Array;
  count: number;
  /** Where the list differs from the one before: from the first such index to behind the last. */
  changed: [from: number, to: number];
}

/**
 * A body's indices are filled up to whole hundreds, with triangles that are none, so that those behind it mostly stay
 * where they are when an edit gives it a few more or less.
 */
const ROOM = 300;

/**
 * Bodies of arenas, drawn with one call a material. Filled anew whenever what is drawn changes: begin, add, end. Only
 * the indices that became others are sent to the graphics again.
 */
export class Layer {
  readonly group = new Group();
  private readonly batches = new Map<ShaderMaterial, Batch>();

  begin(): void {
    for (const batch of this.batches.values()) {
      batch.count = 0;
      batch.changed = [Infinity, 0];
    }
  }

  /** Draws the first `count` of these indices, which count from the vertex `first` of the arena. */
  add(arena: Arena, material: ShaderMaterial, indices: Uint32Array, count: number, first: number): void {
    const batch = this.batches.get(material) ?? this.batch(arena, material);
    const { count: before } = batch;
    const whole = ROOM * Math.ceil(count / ROOM);
    if (before + whole > batch.index.length) {
      const longer = new Uint32Array(Math.ceil((before + whole) * 1.5));
      longer.set(batch.index.subarray(0, before));
      batch.index = longer;
    }
    const { index, changed } = batch;
    for (let i = 0; i < whole; i++) {
      const at = before + i;
      const value = i < count ? indices[i]! + first : first;
      if (index[at] === value) continue;
      index[at] = value;
      if (at < changed[0]) changed[0] = at;
      changed[1] = at + 1;
    }
    batch.count = before + whole;
  }

  end(): void {
    for (const { arena, mesh, index, count, changed } of this.batches.values()) {
      mesh.visible = count > 0;
      if (count === 0) continue;
      const { geometry } = mesh;
      if (geometry.index?.array !== index) {
        arena.detach(geometry);
        arena.attach(geometry);
        geometry.setIndex(new BufferAttribute(index, 1).setUsage(DynamicDrawUsage));
      } else if (changed[0] < changed[1]) {
        geometry.index.addUpdateRange(changed[0], changed[1] - changed[0]);
        geometry.index.needsUpdate = true;
      }
      geometry.setDrawRange(0, count);
    }
  }

  dispose(): void {
    for (const { arena, mesh } of this.batches.values()) arena.detach(mesh.geometry);
    this.batches.clear();
    this.group.clear();
  }

  private batch(arena: Arena, material: ShaderMaterial): Batch {
    const mesh = new Mesh(new BufferGeometry(), material);
    // What lies outside the picture is left out bar by bar, where that pays.
    mesh.frustumCulled = false;
    mesh.geometry.boundingSphere = new Sphere();
    arena.attach(mesh.geometry);
    this.group.add(mesh);
    const batch: Batch = { arena, mesh, index: new Uint32Array(0), count: 0, changed: [Infinity, 0] };
    this.batches.set(material, batch);
    return batch;
  }
}
