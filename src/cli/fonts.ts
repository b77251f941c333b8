import { readFileSync } from "node:fs";
import { createRequire } from "node:module";
import type { Fonts } from "../draw/index.ts";

/** The lettering of the cards, from the font package beside this program. */
export function readFonts(): Fonts {
  const { resolve } = createRequire(import.meta.url);
  const font = (name: string): Uint8Array => readFileSync(resolve(`dejavu-fonts-ttf/ttf/${name}.ttf`));
  return { regular: font("DejaVuSans"), bold: font("DejaVuSans-Bold") };
}
