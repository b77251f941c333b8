export { demoText, isDemo } from "./demos.ts";
export { Shell } from "./shell.tsx";
