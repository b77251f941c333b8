import type { SlipCode } from "../core/units/index.ts";
import { PHRASES } from "./phrases.ts";

/** The slip of a unit that explains a reading: "typed in inches". */
export const saySlip = (code: SlipCode): string => PHRASES[`slip-${code}`];
