/** A grey picture as pdftoppm -gray writes it. */
export interface Grey {
  readonly width: number;
  readonly height: number;
  /** Row by row from the top; 0 black, 255 white. */
  readonly pixels: Uint8Array;
}

/** Reads a binary PGM of one byte a pixel (netpbm's "P5", maxval 255). Throws on anything else. */
export function readPgm(bytes: Uint8Array): Grey {
  const head = /^P5\s+(?:#[^\n]*\n\s*)*(\d+)\s+(\d+)\s+255\s/.exec(
    Buffer.from(bytes.subarray(0, 200)).toString("latin1"),
  );
  if (!head) throw new Error("not a binary PGM with 255 greys");
  const [width, height] = [Number(head[1]), Number(head[2])];
  const pixels = bytes.subarray(head[0].length);
  if (pixels.length !== width * height) throw new Error("a PGM of another length than it says");
  return { width, height, pixels };
}

/** Middles of the dark strokes met along a row or column of pixels, in pixels, weighed by their darkness. */
export function strokes(picture: Grey, way: "row" | "column", index: number): number[] {
  const count = way === "row" ? picture.width : picture.height;
  const ink = (i: number): number =>
    255 - picture.pixels[way === "row" ? index * picture.width + i : i * picture.width + index]!;
  const out: number[] = [];
  let [weight, moment] = [0, 0];
  for (let i = 0; i <= count; i++) {
    const dark = i < count ? ink(i) : 0;
    if (dark > 0) {
      weight += dark;
      moment += dark * (i + 0.5);
    } else if (weight > 0) {
      // a faint smear is no stroke
      if (weight > 128) out.push(moment / weight);
      [weight, moment] = [0, 0];
    }
  }
  return out;
}

/** The box round all pixels that are nearer to black than to white, in pixels: left, top, right, bottom. */
export function inkBox({ width, height, pixels }: Grey): readonly [number, number, number, number] {
  let [left, top, right, bottom] = [width, height, 0, 0];
  for (let y = 0; y < height; y++)
    for (let x = 0; x < width; x++)
      if (pixels[y * width + x]! < 128) {
        left = Math.min(left, x);
        right = Math.max(right, x + 1);
        top = Math.min(top, y);
        bottom = Math.max(bottom, y + 1);
      }
  return [left, top, right, bottom];
}
