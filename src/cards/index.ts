export type { CardFile, CardOptions } from "./files.ts";
export { benderCard, cardFiles, markStrip, notcherCard, overview, wrapCard } from "./files.ts";
