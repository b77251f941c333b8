import { lazy } from "react";

// With a bar in hand, or one pointed at, only.
export const Questions = lazy(async () => ({ default: (await import("./questions.tsx")).Questions }));
export const InOneLine = lazy(async () => ({ default: (await import("./in-one-line.tsx")).InOneLine }));
