// biome-ignore-all lint/style/noNonNullAssertion: rows have every attribute of the arena's sizes, and a gap that was found is one of the list.
import { BufferAttribute, type BufferGeometry, DynamicDrawUsage } from "three";

/** Where a body's vertices are in an arena. */
export interface Slot {
  readonly first: number;
  readonly room: number;
}

/** Rooms are whole fours: the strips of lines tell their corners by the vertex's number. */
const FOUR = 4;
/** Spare room, so that a body which grows a little by an edit stays where it is. */
const SPARE = 1.15;

/**
 * Vertices of many bodies in one set of buffers, so that one call draws all that look alike. Only the rows that were
 * put anew are sent to the graphics again.
 */
export class Arena {
  private readonly sizes: Readonly<Record<string, number>>;
  private attributes: Readonly<Record<string, BufferAttribute>> = {};
  private readonly users = new Set<BufferGeometry>();
  private readonly gaps: Slot[] = [];
  private capacity = 0;
  private end = 0;

  /** Names of the attributes and how many numbers a vertex has in each. */
  constructor(sizes: Readonly<Record<string, number>>) {
    this.sizes = sizes;
  }

  /** Puts vertices, in the place of `old` where they fit there. */
  put(rows: Readonly<Record<string, Float32Array>>, old?: Slot): Slot {
    const [[name, size]] = Object.entries(this.sizes) as [[string, number]];
    const count = rows[name]!.length / size;
    const slot = old && old.room >= count ? old : this.take(count, old);
    for (const [name, attribute] of Object.entries(this.attributes)) {
      const start = slot.first * attribute.itemSize;
      attribute.array.set(rows[name]!, start);
      attribute.addUpdateRange(start, count * attribute.itemSize);
      attribute.needsUpdate = true;
    }
    return slot;
  }

  release(slot: Slot | undefined): void {
    if (slot) this.gaps.push(slot);
  }

  /** Lets a geometry draw from these buffers. */
  attach(geometry: BufferGeometry): void {
    this.users.add(geometry);
    for (const [name, attribute] of Object.entries(this.attributes)) geometry.setAttribute(name, attribute);
  }

  /** Frees what the geometry has of its own; the buffers stay. */
  detach(geometry: BufferGeometry): void {
    this.users.delete(geometry);
    for (const name of Object.keys(this.sizes)) geometry.deleteAttribute(name);
    geometry.dispose();
  }

  private take(count: number, old: Slot | undefined): Slot {
    this.release(old);
    const gap = this.gaps.findIndex(({ room }) => room >= count);
    if (gap >= 0) return this.gaps.splice(gap, 1)[0]!;
    const room = FOUR * Math.ceil((count * SPARE) / FOUR);
    const slot = { first: this.end, room };
    this.end += room;
    if (this.end > this.capacity) this.grow();
    return slot;
  }

  private grow(): void {
    this.capacity = FOUR * Math.ceil((this.end * 1.5) / FOUR);
    const before = this.attributes;
    const users = [...this.users];
    // The old buffers go with the first geometry that lets go of them; all must be bound to the new ones.
    for (const geometry of users) geometry.dispose();
    this.attributes = Object.fromEntries(
      Object.entries(this.sizes).map(([name, size]) => {
        const array = new Float32Array(this.capacity * size);
        if (before[name]) array.set(before[name].array);
        return [name, new BufferAttribute(array, size).setUsage(DynamicDrawUsage)];
      }),
    );
    for (const geometry of users) this.attach(geometry);
  }
}
