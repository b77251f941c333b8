import regular from "dejavu-fonts-ttf/ttf/DejaVuSans.ttf?url";
import bold from "dejavu-fonts-ttf/ttf/DejaVuSans-Bold.ttf?url";
import type { Fonts } from "../../../draw/index.ts";

/** Gives the fonts of printed cards, loaded once, when the first card is printed; again where that failed. */
export function fontsOnce(): () => Promise<Fonts> {
  let fonts: Promise<Fonts> | undefined;
  return () => {
    fonts ??= Promise.all([bytesOf(regular), bytesOf(bold)]).then(([r, b]) => ({ regular: r, bold: b }));
    fonts.catch(() => {
      fonts = undefined;
    });
    return fonts;
  };
}

async function bytesOf(url: string): Promise<Uint8Array> {
  const answer = await fetch(url);
  if (!answer.ok) throw new Error(`${url}: ${answer.status}`);
  return new Uint8Array(await answer.arrayBuffer());
}
