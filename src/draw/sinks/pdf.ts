import type { Document, Fonts } from "../types.ts";

export interface PdfOptions {
  /** Deflate the page (false: same bytes in Node and browser). */
  readonly compress?: boolean;
}

/** A page per sheet at true size, fonts embedded; asks the viewer not to scale when printing. */
export async function toPdf(
  _document: Document,
  _fonts: Fonts,
  _options: PdfOptions = {},
): Promise<Uint8Array> {
  throw new Error("being written");
}
