export type { NotcherStep } from "./notcher-steps.ts";
export { CAUTIONED, notcherSteps, standing } from "./notcher-steps.ts";
export type { Notches } from "./use-notch.ts";
export { useNotches } from "./use-notch.ts";
