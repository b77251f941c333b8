export { contactsOf } from "./contacts.ts";
export type { Lip } from "./lips.ts";
export type { Mobility, Twist } from "./mobility.ts";
export { mobilityOf } from "./mobility.ts";
export type { Touch } from "./touches.ts";
export { opening, touchesOf } from "./touches.ts";
