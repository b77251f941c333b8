// biome-ignore-all lint/style/noNonNullAssertion: a path has a place at least, and its places are walked by their own indices.
import type { Vec } from "../../core/space/index.ts";
import { alongPath, anchorsOf, lyingOf } from "./anchors.ts";
import { axesOf, type Camera } from "./camera.ts";
import { Cover, type Lying } from "./cover.ts";
import { markerAt } from "./marker.ts";
import { type Seen, seenAt } from "./project.ts";
import { type Box, inOrder, isFree, type Placed, thinned, type Wanted } from "./thin.ts";
import type { ViewPoint } from "./types.ts";
import { rings, show, type Word, wordOf } from "./word.ts";

/** What has a name in the picture. */
export interface Named {
  readonly kind: "point" | "body" | "bar" | "plate" | "corner";
  readonly id: string;
  readonly says: string;
  /** Where it runs (mm, car axes), or its one place: its name points at some place of it. */
  readonly path: readonly Vec[];
  /** How far it reaches round that (mm). */
  readonly radius: number;
  readonly isInHand: boolean;
  /** The bar in hand lands on it. */
  readonly isHost?: boolean;
  /** The bar that it is a part of. */
  readonly of?: string;
  /** Of a point that is known with an error. */
  readonly covariance?: ViewPoint["covariance"];
}

type SeenAt = (p: Vec) => Seen | undefined;
type Size = readonly [number, number];

interface Made {
  of: Named;
  readonly ring: HTMLElement | undefined;
  word?: Word;
}

/** How far from what it names a name begins (CSS pixels). */
const BESIDE = [14, 26, 44, 68, 100];
const OFF: Readonly<Record<Named["kind"], readonly number[]>> = {
  point: [10, ...BESIDE],
  body: BESIDE,
  bar: BESIDE,
  plate: BESIDE,
  corner: [2, 8, 16],
};
/** What a point's mark takes up. */
const MARK = 12;
/** The buttons at the picture's foot, and the words that say where it is seen from. */
const BUTTONS = { width: 324, height: 88 };
const WORDS = { x: 0, y: 0, width: 300, height: 42 };
/** After what is in hand and what it lands on: points, for they are what one measures from, then bars. */
const RANK = { corner: 1, point: 3, bar: 4, plate: 5, body: 6 } as const;
/** How bad a place (as pixels of leader) is worse than no name: plates and body lines are ground. */
const WORST = { corner: 100, point: 300, bar: 300, plate: 45, body: 75 } as const;
/** More names than these are no help, and those farther back than so many others are not even tried. */
const MOST = 60;
const TRIED = 120;
/** A joint is looked at closely where a tube is seen this large, of the lesser side of the picture. */
const CLOSE = 1 / 7;

/**
 * Names over the picture, and a ring round each point that is known with an error: the body that holds it in 95 of 100,
 * as it is seen, never smaller than can be made out. Names give way to what is in hand, and else to those nearer to the
 * eye. While the picture moves they keep to what they name; they are placed anew when it rests.
 */
export class Names {
  /** Whether all are shown, or only those of the tubes whose joint is looked at closely and the corners of the bar in hand. */
  private isOn = false;
  private hasBars = true;
  private readonly host: HTMLElement;
  private readonly made = new Map<string, Made>();
  private shown: ReadonlyMap<string, Placed> = new Map();
  private isNew = true;

  constructor(host: HTMLElement) {
    this.host = host;
  }

  /** `hasBars`: of bars that are neither in hand nor what it lands on, too. */
  show(isOn: boolean, hasBars = true): void {
    this.isOn = isOn;
    this.hasBars = hasBars;
    this.isNew = true;
  }

  set(all: readonly Named[]): void {
    const wanted = new Map(all.map((n) => [keyOf(n), n]));
    for (const [key, { of, word, ring }] of this.made) {
      const now = wanted.get(key);
      if (now?.says === of.says && (now.covariance === undefined) === (ring === undefined)) continue;
      word?.whole.remove();
      ring?.remove();
      this.made.delete(key);
      this.isNew = true;
    }
    for (const [key, of] of wanted) {
      const made = this.made.get(key) ?? this.make(of);
      if (made.of.isInHand !== of.isInHand || made.of.isHost !== of.isHost) this.isNew = true;
      made.of = of;
      this.made.set(key, made);
      for (const part of [made.word?.whole, made.ring]) part?.toggleAttribute("data-in-hand", of.isInHand);
    }
  }

  /** `isAtRest`: places are found anew, not kept; they are, too, where others have names than before. */
  draw(camera: Camera, size: Size, kept: (p: Vec) => boolean, isAtRest: boolean): void {
    const axes = axesOf(camera);
    const seen = (p: Vec): Seen | undefined => (kept(p) ? seenAt(camera, p, size) : undefined);
    for (const { of, ring } of this.made.values()) {
      if (ring && of.covariance) rings(ring, seen(of.path[0]!), of.covariance, axes);
    }
    const isAnew = isAtRest || this.isNew;
    this.isNew = false;
    const before = this.shown;
    this.shown = isAnew ? this.placed(seen, size) : this.moved(seen, size);
    for (const key of before.keys()) {
      if (!this.shown.has(key)) this.made.get(key)?.word?.whole.toggleAttribute("data-away", true);
    }
    for (const [key, at] of this.shown) show(this.made.get(key)!.word!, at, isAnew);
  }

  /** The point whose name was shown at a place of the picture. */
  pointAt(x: number, y: number): string | undefined {
    for (const [key, { box: b }] of this.shown) {
      const of = this.made.get(key)?.of;
      if (of?.kind === "point" && x >= b.x && x <= b.x + b.width && y >= b.y && y <= b.y + b.height)
        return of.id;
    }
    return undefined;
  }

  dispose(): void {
    this.set([]);
  }

  /** Found anew. */
  private placed(seen: SeenAt, size: Size): ReadonlyMap<string, Placed> {
    const all = [...this.made].map(([key, { of, word }], i) => ({
      key,
      of,
      number: i + 1,
      lying: lyingOf(of, seen),
      before: word?.choice?.share,
    }));
    const wanted = all.filter(({ of, lying }) => this.isWanted(of, lying, size));
    if (wanted.length === 0) return new Map();
    const cover = new Cover(size);
    for (const { of, number, lying } of all) if (of.kind === "bar") cover.add(number, known(lying));
    const lines = new Map(all.map(({ key, lying }) => [key, lying]));
    const tried = inOrder(
      wanted.flatMap(({ key: id, of, number, lying, before }) => {
        const anchors = anchorsOf(of, lying, size, cover, number, before);
        const depth = Math.min(...known(lying).map((l) => l.depth));
        const line = of.kind === "body" ? [] : (lines.get(of.of === undefined ? id : `bar ${of.of}`) ?? []);
        return anchors.length > 0
          ? [{ id, of, anchors, depth, rank: rankOf(of), own: known(line), off: OFF[of.kind] }]
          : [];
      }),
    ).slice(0, TRIED);
    this.measure(tried.map(({ id }) => id));
    const names = tried.map((name): Wanted => {
      const { width, height, choice } = this.made.get(name.id)!.word!;
      const worst = !this.isOn || name.of.isInHand ? Infinity : WORST[name.of.kind];
      return { ...name, width, height, worst, ...(choice ? { before: choice } : {}) };
    });
    const out = thinned(names, size, this.taken(seen, size), cover, MOST);
    for (const [key, { word }] of this.made) {
      if (word && !out.has(key)) delete word.choice;
    }
    return out;
  }

  /** Those shown before, where they are now; they hide where they would lie on others or leave the picture. */
  private moved(seen: SeenAt, size: Size): ReadonlyMap<string, Placed> {
    const full = this.taken(seen, size);
    const out = new Map<string, Placed>();
    for (const { id, made } of this.inOrder()) {
      const { of, word } = made;
      const { width, height, choice } = word!;
      const anchor = choice && seen(alongPath(of.path, choice.share));
      if (!anchor) continue;
      const box = { x: anchor.x + choice.dx, y: anchor.y + choice.dy, width, height };
      if (!isFree(box, size, full)) continue;
      full.push(box);
      out.set(id, { ...choice, anchor, box });
    }
    return out;
  }

  /** What had a place when all were placed last, the first to be shown first. */
  private inOrder(): { readonly id: string; readonly made: Made }[] {
    const has = [...this.made].flatMap(([id, made]) =>
      made.word?.choice ? [{ id, made, rank: rankOf(made.of), depth: 0 }] : [],
    );
    return inOrder(has);
  }

  private isWanted(of: Named, lying: readonly (Lying | undefined)[], size: Size): boolean {
    if (of.kind === "corner") return true;
    if (of.kind !== "bar") return this.isOn;
    if (this.isOn && (this.hasBars || of.isInHand || of.isHost)) return true;
    return lying.some((l) => l !== undefined && 2 * l.reach > CLOSE * Math.min(...size));
  }

  private taken(seen: SeenAt, size: Size): Box[] {
    const marks = [...this.made.values()].flatMap(({ of }): Box[] => {
      const at = of.kind === "point" ? seen(of.path[0]!) : undefined;
      return at ? [{ x: at.x - MARK / 2, y: at.y - MARK / 2, width: MARK, height: MARK }] : [];
    });
    return [{ x: 0, y: size[1] - BUTTONS.height, ...BUTTONS }, markerAt(size), WORDS, ...marks];
  }

  private make(of: Named): Made {
    const ring = of.covariance && document.createElement("i");
    if (ring) this.host.append(ring);
    this.isNew = true;
    return { of, ring };
  }

  /** Words are put into the page when they are first wanted, and measured all at once. */
  private measure(keys: readonly string[]): void {
    const fresh = keys.flatMap((key) => {
      const made = this.made.get(key)!;
      if (made.word) return [];
      made.word = wordOf(made.of);
      this.host.append(made.word.whole);
      return [made.word];
    });
    for (const word of fresh) {
      word.width = word.word.offsetWidth;
      word.height = word.word.offsetHeight;
    }
  }
}

const known = (lying: readonly (Lying | undefined)[]): readonly Lying[] => lying.flatMap((l) => l ?? []);

const keyOf = ({ kind, id }: Named): string => `${kind} ${id}`;

const rankOf = ({ kind, isInHand, isHost }: Named): number =>
  isInHand && kind !== "corner" ? 0 : isHost ? 2 : RANK[kind];
