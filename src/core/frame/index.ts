export type { Aside } from "./force.ts";
export { forceAside } from "./force.ts";
