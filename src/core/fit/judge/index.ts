export { EFFORT } from "./effort.ts";
export { judge } from "./judge.ts";
export type { Effort, Joint, Judged, Past } from "./judged.ts";
export { isIn } from "./judged.ts";
export type { Rests } from "./overlong.ts";
export { restsAt } from "./overlong.ts";
export { gapFor, shortenFor } from "./remedy.ts";
export type { Setting } from "./went.ts";
export { pastPhrase } from "./why.ts";
