export type { Machine, Ports } from "./addresses.ts";
export { type Channel, channelOf } from "./channel.ts";
export type { Device } from "./devices.ts";
export { type Gate, type GateOptions, gate } from "./gate.ts";
export type { Notice } from "./parts.ts";
