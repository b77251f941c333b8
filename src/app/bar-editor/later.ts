import { lazy } from "react";

/** What the wall shows only with a bar in hand, or when a bar is begun, comes then: the first page is smaller for it. */
export const BarPanel = lazy(async () => ({ default: (await import("./bar-panel.tsx")).BarPanel }));
export const NewBar = lazy(async () => ({ default: (await import("./new-bar.tsx")).NewBar }));
