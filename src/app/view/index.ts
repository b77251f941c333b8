export { createViewer, loadViewer } from "./later.ts";
export { platesOf } from "./plates.ts";
export type { Staging } from "./staging.ts";
export { STRAIGHT_VIEWS, type Stand, type StraightView } from "./stand.ts";
export { darkTheme, lightTheme, type ViewTheme } from "./theme.ts";
export type { Section, ViewBar, ViewExtras, Viewer, ViewerOptions, ViewTap } from "./types.ts";
