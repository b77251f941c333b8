export {
  type JoinCode,
  type NamedState,
  type Photograph,
  pictureOf,
  type ShopChange,
  type ShopDevice,
  type ShopJob,
  type ShopNotice,
  ShopRefused,
  type ShopSelf,
  shopAsk,
} from "./ask.ts";
export type { Edited, GaveWay } from "./gave-way.ts";
export type { ShopInHand, ShownGaveWay, Whereabouts } from "./in-hand.ts";
export { type Line, type LineState, lineTo, type Socket } from "./line.ts";
export { type Share, type Shared, share } from "./share.ts";
