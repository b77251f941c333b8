import type { Vec } from "../../core/space/index.ts";
import { axesOf, type Camera } from "./camera.ts";
import { ellipseOf } from "./ellipse.ts";
import { type Seen, seenAt } from "./project.ts";
import { around, type Box, thinned, type Wanted } from "./thin.ts";
import type { ViewPoint } from "./types.ts";

/** What has a name in the picture. */
export interface Named {
  readonly kind: "point" | "body" | "bar";
  readonly id: string;
  readonly says: string;
  /** Where the name may be put, the best first (mm, car axes). */
  readonly places: readonly Vec[];
  readonly isInHand: boolean;
  /** Of a point that is known with an error. */
  readonly covariance?: ViewPoint["covariance"];
}

interface Made {
  of: Named;
  readonly word: HTMLElement;
  /** Of `word` (CSS pixels); 0 until it was there to be measured. */
  width: number;
  height: number;
  readonly ring: HTMLElement | undefined;
}

/** A name stands this far from its place, clear of its mark (CSS pixels). */
const OFF = { point: 10, body: 8, bar: 16 } as const;
/** What a point's mark takes up. */
const MARK = 12;
/** Half of the least ring round a point, so that it shows. */
const LEAST = 4.5;
/** The corners that the axes are in, and the words that say where the picture is seen from. */
const AXES = 108;
const WORDS = { x: 0, y: 0, width: 300, height: 42 };
/** What is in hand comes first, then points, for they are what one measures from. */
const RANK = { bar: 1, point: 1, body: 2 } as const;

/**
 * Names over the picture, and a ring round each point that is known with an error: the body that holds it in 95 of 100,
 * as it is seen, never smaller than can be made out. Names give way to what is in hand, those of the body to those of points, and else to those nearer to the eye.
 */
export class Names {
  isOn = false;
  private readonly host: HTMLElement;
  private readonly made = new Map<string, Made>();
  private shown: ReadonlyMap<string, Box> = new Map();

  constructor(host: HTMLElement) {
    this.host = host;
  }

  set(all: readonly Named[]): void {
    const wanted = new Map(all.map((n) => [`${n.kind} ${n.id}`, n]));
    for (const [key, { of, word, ring }] of this.made) {
      const now = wanted.get(key);
      if (now?.says === of.says && (now.covariance === undefined) === (ring === undefined)) continue;
      word.remove();
      ring?.remove();
      this.made.delete(key);
    }
    for (const [key, of] of wanted) {
      const made = this.made.get(key) ?? this.make(of);
      made.of = of;
      this.made.set(key, made);
      for (const part of [made.word, made.ring]) part?.toggleAttribute("data-in-hand", of.isInHand);
    }
  }

  draw(camera: Camera, size: readonly [number, number], kept: (p: Vec) => boolean): void {
    const axes = axesOf(camera);
    const taken: Box[] = [{ x: 0, y: size[1] - AXES, width: AXES, height: AXES }, WORDS];
    const wanted: Wanted[] = [];
    if (this.isOn) this.measure();
    for (const [key, { of, ring, width, height }] of this.made) {
      const seen = of.places.flatMap((p) => (kept(p) ? (seenAt(camera, p, size) ?? []) : []));
      const [first] = seen;
      if (ring && of.covariance) rings(ring, first, of.covariance, axes);
      if (!first) continue;
      if (of.kind === "point")
        taken.push({ x: first.x - MARK / 2, y: first.y - MARK / 2, width: MARK, height: MARK });
      const spots = seen.flatMap(({ x, y }) => around(x, y, width, height, OFF[of.kind]));
      if (width > 0)
        wanted.push({
          id: key,
          width,
          height,
          spots,
          rank: of.isInHand ? 0 : RANK[of.kind],
          depth: first.depth,
        });
    }
    this.shown = this.isOn ? thinned(wanted, size, taken) : new Map();
    for (const [key, { word }] of this.made) {
      const box = this.shown.get(key);
      word.toggleAttribute("data-away", !box);
      if (box) word.style.transform = `translate(${Math.round(box.x)}px, ${Math.round(box.y)}px)`;
    }
  }

  /** The point whose name was shown at a place of the picture. */
  pointAt(x: number, y: number): string | undefined {
    for (const [key, b] of this.shown) {
      const of = this.made.get(key)?.of;
      if (of?.kind === "point" && x >= b.x && x <= b.x + b.width && y >= b.y && y <= b.y + b.height)
        return of.id;
    }
    return undefined;
  }

  dispose(): void {
    this.set([]);
  }

  private make(of: Named): Made {
    const word = document.createElement("span");
    word.textContent = of.says;
    word.dataset.kind = of.kind;
    word.dataset.away = "";
    const ring = of.covariance && document.createElement("i");
    this.host.append(...(ring ? [ring, word] : [word]));
    return { of, word, width: 0, height: 0, ring };
  }

  private measure(): void {
    for (const made of this.made.values()) {
      if (made.width > 0) continue;
      made.width = made.word.offsetWidth;
      made.height = made.word.offsetHeight;
    }
  }
}

function rings(
  ring: HTMLElement,
  seen: Seen | undefined,
  covariance: NonNullable<ViewPoint["covariance"]>,
  axes: Parameters<typeof ellipseOf>[1],
): void {
  ring.toggleAttribute("data-away", !seen);
  if (!seen) return;
  const { major, minor, turn } = ellipseOf(covariance, axes);
  const [a, b] = [Math.max(LEAST, major / seen.pixel), Math.max(LEAST, minor / seen.pixel)];
  ring.style.width = `${(2 * a).toFixed(1)}px`;
  ring.style.height = `${(2 * b).toFixed(1)}px`;
  ring.style.transform = `translate(${(seen.x - a).toFixed(1)}px, ${(seen.y - b).toFixed(1)}px) rotate(${-turn}rad)`;
}
