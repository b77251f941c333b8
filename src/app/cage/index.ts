export type { Camera, StraightView } from "./camera.ts";
export { loadViewer } from "./later.ts";
export type { Staging } from "./staging.ts";
export { posedAt } from "./staging.ts";
export type { ViewTheme } from "./theme.ts";
export type { Section, ViewBar, ViewExtras, Viewer, ViewerOptions, ViewTap } from "./types.ts";
export { View } from "./view.tsx";
