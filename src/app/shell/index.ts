export { Shell } from "./shell.tsx";
