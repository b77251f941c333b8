export type { GaveWay } from "./gave-way.ts";
export { type Line, type LineState, lineTo, type Socket } from "./line.ts";
export { type Share, type Shared, share } from "./share.ts";
