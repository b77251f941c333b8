export { demoText } from "./demos.ts";
export { Shell } from "./shell.tsx";
