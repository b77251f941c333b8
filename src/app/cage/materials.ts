import {
  BackSide,
  CanvasTexture,
  DoubleSide,
  FrontSide,
  GreaterDepth,
  ShaderMaterial,
  Vector2,
  Vector3,
} from "three";
import {
  CLIP_FRAGMENT,
  CLIP_VERTEX,
  DASH,
  DRAFT,
  ENDS,
  FILL,
  GHOST,
  HIDDEN,
  HULL,
  LINE,
  MARK,
} from "./shaders.ts";
import type { ViewTheme } from "./theme.ts";

/** Line types as ISO 128-2 has them: continuous, dashed, long-dashed dotted, long-dashed double-dotted. */
export type Pattern = "solid" | "dashed" | "chain" | "phantom";

/** Length of one repeat (CSS pixels) and the parts of it that are drawn. */
const PATTERNS: Readonly<
  Record<Pattern, { readonly repeat: number; readonly on: readonly (readonly [number, number])[] }>
> = {
  solid: { repeat: 100, on: [[0, 1]] },
  dashed: { repeat: 13, on: [[0, 0.65]] },
  chain: {
    repeat: 30,
    on: [
      [0, 0.68],
      [0.8, 0.88],
    ],
  },
  phantom: {
    repeat: 34,
    on: [
      [0, 0.56],
      [0.66, 0.73],
      [0.83, 0.9],
    ],
  },
};

/** How much of the ground's colour a colour has at the farthest place: what is in hand stays, what is ground pales. */
const PALE: Readonly<Partial<Record<keyof ViewTheme, number>>> = {
  ink: 0.62,
  muted: 0.5,
  fill: 0.6,
  plate: 0.6,
  host: 0.3,
  hostFill: 0.25,
  attention: 0.2,
  attentionFill: 0.2,
};

/** What is less deep than this (mm) is not paled to the full: one bar alone is all near. */
const LEAST_DEPTH = 1200;

export interface MarkShape {
  readonly name: string;
  /** CSS pixels across. */
  readonly size: number;
  /** Drawn through everything in front of it. */
  readonly onTop?: boolean;
  readonly draw: (context: CanvasRenderingContext2D, size: number, theme: ViewTheme) => void;
}

/** All materials of the view, made when first asked for and shared; a theme changes their colours in place. */
export class Materials {
  /** Picture's size in device pixels, device pixels to a CSS pixel, mm to a CSS pixel at the target. */
  readonly viewport = { value: new Vector2(1, 1) };
  readonly ratio = { value: 1 };
  readonly pixel = { value: 1 };
  /** Device pixels to a CSS pixel of line width: small on paper, a drawing takes thinner lines. */
  readonly weight = { value: 1 };
  /** Distance from the eye of the nearest of the bars (mm), and 1 over how much farther the farthest is. */
  readonly depth = { value: new Vector2(0, 0) };
  /** The way to the light, as the eye sees it. */
  readonly light = { value: new Vector3(0, 0, 1) };
  /** mm to a CSS pixel rounded to a power of two: line patterns keep to the bar while the view turns. */
  readonly grain = { value: 1 };
  private readonly colours = new Map<keyof ViewTheme, { value: Vector3 }>();
  private readonly kept = new Map<string, ShaderMaterial>();
  private readonly marks: { readonly shape: MarkShape; readonly map: { value: CanvasTexture } }[] = [];
  private theme: ViewTheme;
  private isCut = false;

  constructor(theme: ViewTheme) {
    this.theme = theme;
  }

  setTheme(theme: ViewTheme): void {
    this.theme = theme;
    for (const [name, colour] of this.colours) colour.value.copy(parsed(theme[name]));
    for (const { shape, map } of this.marks) {
      map.value.dispose();
      map.value = this.texture(shape);
    }
  }

  /** With a section, the inside of a wall is drawn as its cut face. */
  setCut(isCut: boolean): void {
    if (isCut === this.isCut) return;
    this.isCut = isCut;
    for (const [key, material] of this.kept) {
      if (!key.startsWith("fill")) continue;
      material.side = isCut ? DoubleSide : FrontSide;
      material.needsUpdate = true;
    }
  }

  setScale(width: number, height: number, ratio: number, pixel: number): void {
    this.viewport.value.set(width, height);
    this.ratio.value = ratio;
    this.pixel.value = pixel;
    this.weight.value = ratio * Math.min(1.4, Math.max(0.65, (2.6 / pixel) ** 0.4));
    this.grain.value = 2 ** Math.round(Math.log2(pixel));
  }

  /** Distances from the eye of the nearest and the farthest of the bars (mm). */
  setDepth(near: number, far: number): void {
    this.depth.value.set(near, 1 / Math.max(far - near, LEAST_DEPTH));
  }

  /** Light comes from above and from beside the viewer's left; `up`: how much of the car's up is up in the picture. */
  setLight(up: number): void {
    this.light.value.set(-0.25, 0.8 * up, 0.6).normalize();
  }

  /** A surface; `isRound` for a tube's, which steps back where it turns away so that its outlines stay whole. */
  fill(face: keyof ViewTheme, edge: keyof ViewTheme, cut: keyof ViewTheme, isRound = true): ShaderMaterial {
    return this.once(`fill ${face} ${edge} ${cut} ${isRound}`, () => {
      const material = shader(FILL, { ...this.lit(face, edge), uCut: this.colour(cut) });
      material.side = this.isCut ? DoubleSide : FrontSide;
      // The bore's facets seen nearly edge on are steep in depth, too, and would show through the wall in specks.
      material.polygonOffset = isRound;
      material.polygonOffsetFactor = 1;
      return material;
    });
  }

  /** The outline of a rounded body: its far side, `width` CSS pixels larger. */
  hull(colour: keyof ViewTheme, width: number): ShaderMaterial {
    return this.once(`hull ${colour} ${width}`, () => {
      const material = shader(HULL, this.stroke(colour, width));
      material.defines.SOLID = "";
      material.side = BackSide;
      return material;
    });
  }

  /** A rounded body with its outline, drawn in one go for motion. */
  draft(
    face: keyof ViewTheme,
    edge: keyof ViewTheme,
    colour: keyof ViewTheme,
    width: number,
  ): ShaderMaterial {
    return this.once(`draft ${face} ${edge} ${colour} ${width}`, () => {
      const material = shader(DRAFT, { ...this.lit(face, edge), ...this.stroke(colour, width) });
      material.polygonOffset = true;
      material.polygonOffsetFactor = 1;
      return material;
    });
  }

  /** What other bodies hide of a rounded body. */
  hidden(colour: keyof ViewTheme): ShaderMaterial {
    return this.once(`hidden ${colour}`, () => {
      const material = shader(HIDDEN, { uColour: this.colour(colour), uRatio: this.ratio });
      material.depthFunc = GreaterDepth;
      material.depthWrite = false;
      material.transparent = true;
      return material;
    });
  }

  /** Marks where bars end. */
  ends(): ShaderMaterial {
    return this.once("ends", () => {
      const material = shader(ENDS, {
        uInk: this.colour("ink"),
        uInHand: this.colour("inHand"),
        uGround: this.colour("ground"),
        uDepth: this.depth,
        uWeight: this.weight,
        uPixel: this.pixel,
      });
      material.transparent = true;
      material.depthWrite = false;
      return material;
    });
  }

  line(colour: keyof ViewTheme, width: number, pattern: Pattern, onTop = false): ShaderMaterial {
    return this.once(`line ${colour} ${width} ${pattern} ${onTop}`, () => {
      const { repeat, on } = PATTERNS[pattern];
      const material = shader(LINE, {
        ...this.stroke(colour, width),
        uGrain: this.grain,
        uRepeat: { value: repeat },
        uOn: { value: [0, 1, 2].map((i) => new Vector2(...(on[i] ?? [2, 2]))) },
      });
      // A solid line asks no pixel whether it lies in a gap.
      if (pattern === "solid") material.defines.SOLID = "";
      material.side = DoubleSide;
      material.depthTest = !onTop;
      material.transparent = onTop;
      return material;
    });
  }

  /** A body that one sees through. */
  ghost(colour: keyof ViewTheme): ShaderMaterial {
    return this.once(`ghost ${colour}`, () => {
      const material = shader(GHOST, { uColour: this.colour(colour) });
      material.transparent = true;
      material.depthWrite = false;
      return material;
    });
  }

  mark(shape: MarkShape): ShaderMaterial {
    return this.once(`mark ${shape.name}`, () => {
      const map = { value: this.texture(shape) };
      this.marks.push({ shape, map });
      const material = shader(MARK, {
        uMap: map,
        uSize: { value: shape.size },
        uWeight: shape.onTop ? this.ratio : this.weight,
        uPixel: this.pixel,
      });
      material.transparent = true;
      material.depthWrite = false;
      material.depthTest = !shape.onTop;
      return material;
    });
  }

  dispose(): void {
    for (const material of this.kept.values()) material.dispose();
    for (const { map } of this.marks) map.value.dispose();
  }

  private once(key: string, make: () => ShaderMaterial): ShaderMaterial {
    const kept = this.kept.get(key) ?? make();
    this.kept.set(key, kept);
    return kept;
  }

  private colour(name: keyof ViewTheme): { value: Vector3 } {
    const kept = this.colours.get(name) ?? { value: parsed(this.theme[name]) };
    this.colours.set(name, kept);
    return kept;
  }

  private stroke(colour: keyof ViewTheme, width: number) {
    return {
      uColour: this.colour(colour),
      uGround: this.colour("ground"),
      uPale: { value: PALE[colour] ?? 0 },
      uDepth: this.depth,
      uWidth: { value: width },
      uViewport: this.viewport,
      uWeight: this.weight,
      uPixel: this.pixel,
    };
  }

  private lit(face: keyof ViewTheme, edge: keyof ViewTheme) {
    return {
      uFace: this.colour(face),
      uEdge: this.colour(edge),
      uGround: this.colour("ground"),
      uPaleFace: { value: PALE[face] ?? 0 },
      uDepth: this.depth,
      uLight: this.light,
    };
  }

  private texture(shape: MarkShape): CanvasTexture {
    const canvas = document.createElement("canvas");
    const scale = 4;
    canvas.width = canvas.height = shape.size * scale;
    const context = canvas.getContext("2d");
    context?.scale(scale, scale);
    // a browser short of memory may give none: the mark stays empty
    if (context) shape.draw(context, shape.size, this.theme);
    const texture = new CanvasTexture(canvas);
    texture.premultiplyAlpha = true;
    return texture;
  }
}

const shader = (
  [vertex, fragment]: readonly [string, string],
  uniforms: ShaderMaterial["uniforms"],
): ShaderMaterial =>
  new ShaderMaterial({
    uniforms,
    clipping: true,
    vertexShader: vertex.replace("CLIP", CLIP_VERTEX),
    fragmentShader: fragment.replace("CLIP", CLIP_FRAGMENT).replace("DASH", DASH),
  });

/** Screen colours go to the screen as they are: nothing here is lit. */
function parsed(colour: string): Vector3 {
  const n = Number.parseInt(colour.slice(1), 16);
  return new Vector3((n >> 16) & 255, (n >> 8) & 255, n & 255).divideScalar(255);
}
