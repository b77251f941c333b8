import { lazy } from "react";

/** Asked for beside the picture: it comes when it is. */
export const AskSheet = lazy(async () => ({ default: (await import("./ask-sheet.tsx")).AskSheet }));
export const LeadsOf = lazy(async () => ({ default: (await import("./leads-of.tsx")).LeadsOf }));
export const ThingsOf = lazy(async () => ({ default: (await import("./things.tsx")).ThingsOf }));
export const Things = lazy(async () => ({ default: (await import("./things.tsx")).Things }));
