export type { Moved, Moves } from "./moved.ts";
export type { Page } from "./route.ts";
export { goToPage, usePage } from "./route.ts";
export type { App, AppActions, KeptChange, Question, Station } from "./state.ts";
export { appWith, linesOf, STATIONS } from "./state.ts";
export { useAnswer } from "./use-answer.ts";
export { AppContext, useActions, useApp, useAppItself } from "./use-app.ts";
export { dangersAt, useDangers } from "./use-dangers.ts";
export { useDiffers } from "./use-differs.ts";
