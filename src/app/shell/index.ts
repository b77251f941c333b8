export { applyTheme, recall, remember } from "./device.ts";
export { goToPage } from "./route.ts";
export { Shell } from "./shell.tsx";
