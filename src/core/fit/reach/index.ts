export type { Packing } from "./packing.ts";
export { packingOf } from "./packing.ts";
export type { Reach } from "./reach.ts";
export { weldReach } from "./reach.ts";
export type { Torch, Welding } from "./ring.ts";
export { shutOf } from "./shut.ts";
