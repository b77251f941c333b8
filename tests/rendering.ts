/** Pages as other programs draw them. */
import { readFileSync } from "node:fs";
import { createRequire } from "node:module";
import { type Grey, readPgm } from "./pgm.ts";
import { run } from "./programs.ts";

const find = createRequire(import.meta.url).resolve;
const font = (name: string): Uint8Array => new Uint8Array(readFileSync(find(`dejavu-fonts-ttf/ttf/${name}`)));
export const FONTS = { regular: font("DejaVuSans.ttf"), bold: font("DejaVuSans-Bold.ttf") };

/** 20 pixels a millimetre. */
export const DPI = 508;
export const PX = DPI / 25.4;

/** A page of a PDF as a grey picture, by poppler; `root`: where to put it, without an ending. */
export function picture(pdf: string, root: string, page = 1): Grey {
  const p = String(page);
  run("pdftoppm", "-gray", "-r", String(DPI), "-f", p, "-l", p, "-singlefile", pdf, root);
  return readPgm(readFileSync(`${root}.pgm`));
}
