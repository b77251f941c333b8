export type { LengthStyle, ShopWriter } from "./format.ts";
export { DECIMAL_INCHES, shopWriterFor, writerFor } from "./format.ts";
export type { ParsedLength } from "./parse.ts";
export { parseLength } from "./parse.ts";
export { type SlipCode, type UnitSlip, unitSlip } from "./slip.ts";
