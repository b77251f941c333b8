import { lazy } from "react";

/** The row of tags, fetched when it is first opened: the first page does without it. */
export const Board = lazy(async () => ({ default: (await import("./board.tsx")).Board }));
