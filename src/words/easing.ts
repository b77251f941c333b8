import type { Writer } from "../core/findings/index.ts";
import { deg } from "../core/numeric/index.ts";
import type { Easing } from "../core/trestles/index.ts";
import { inLine, inSentences } from "./text.ts";

/** Bends that are eased by hand, with what that must not become. WHO_DECIDES is shown beside it. */
export const sayEasings = (list: readonly Easing[], { angle }: Pick<Writer, "angle">): string =>
  inSentences([
    `${inLine(list.map(({ bend, by }) => `${by > 0 ? "close" : "ease"} bend ${bend} by ${angle(Math.abs(deg(by)))}`))}, cold, if the rule book allows, and read it again`,
    "leave it if it shows a kink; never heat it",
  ]);
