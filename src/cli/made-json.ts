import type { MadeVerdict } from "../core/made/index.ts";
import { deg } from "../core/numeric/index.ts";

/** What becomes of a made bar, as every command prints it: mm and degrees. */
export const verdictJson = ({
  verdict,
  reason,
  ends,
  gap,
  accepted,
  ease,
  enters,
  short,
  again,
}: MadeVerdict) => ({
  verdict,
  code: reason,
  ...(ends ? { ends } : {}),
  ...(gap ? { gap } : {}),
  ...(accepted === undefined ? {} : { accepted }),
  ...(ease ? { ease: ease.map(({ bend, by }) => ({ bend, by: deg(by) })) } : {}),
  ...(again ? { again } : {}),
  ...(enters === undefined ? {} : { enters }),
  short,
});
