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
}

/** Bodies of arenas, drawn with one call a material. Filled anew whenever what is drawn changes: begin, add, end. */
export class Layer {
  readonly group = new Group();
  private readonly batches = new Map<ShaderMaterial, Batch>();

  begin(): void {
    for (const batch of this.batches.values()) batch.count = 0;
  }

  /** Draws the first `count` of these indices, which count from the vertex `first` of the arena. */
  add(arena: Arena, material: ShaderMaterial, indices: Uint32Array, count: number, first: number): void {
    const batch = this.batches.get(material) ?? this.batch(arena, material);
    const { count: before } = batch;
    if (before + count > batch.index.length) {
      const longer = new Uint32Array(Math.ceil((before + count) * 1.5));
      longer.set(batch.index.subarray(0, before));
      batch.index = longer;
    }
    const { index } = batch;
    for (let i = 0; i < count; i++) index[before + i] = indices[i]! + first;
    batch.count = before + count;
  }

  end(): void {
    for (const { arena, mesh, index, count } of this.batches.values()) {
      mesh.visible = count > 0;
      if (count === 0) continue;
      const { geometry } = mesh;
      if (geometry.index?.array !== index) {
        arena.detach(geometry);
        arena.attach(geometry);
        geometry.setIndex(new BufferAttribute(index, 1).setUsage(DynamicDrawUsage));
      } else {
        geometry.index.clearUpdateRanges();
        geometry.index.addUpdateRange(0, count);
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
    const batch = { arena, mesh, index: new Uint32Array(0), count: 0 };
    this.batches.set(material, batch);
    return batch;
  }
}
