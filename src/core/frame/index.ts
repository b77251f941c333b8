export type { Spot } from "./build.ts";
export { frameOf, stiffOf } from "./build.ts";
export type { Aside } from "./force.ts";
export { forceAside } from "./force.ts";
export type { Ready } from "./solve.ts";
export { readyFrame } from "./solve.ts";
export type { Frame, Load, Member, Moved, Stiffness } from "./types.ts";
