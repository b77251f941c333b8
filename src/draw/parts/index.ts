export { CHECK_SQUARE, checkSquare } from "./check.ts";
export type { TitleBlock } from "./frame.ts";
export { sheetFrame } from "./frame.ts";
export { hatch } from "./hatch.ts";
export type { LetteringOptions } from "./paragraph.ts";
export { paragraph } from "./paragraph.ts";
export type { Column } from "./table.ts";
export { table } from "./table.ts";
