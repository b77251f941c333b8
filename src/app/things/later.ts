import { lazy } from "react";

/** Asked for beside the picture: it comes when it is. */
export const Things = lazy(async () => ({ default: (await import("./things.tsx")).Things }));
