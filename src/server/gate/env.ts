import type { HttpBindings } from "@hono/node-server";
import type { Channel } from "./channel.ts";
import type { Device } from "./devices.ts";

/** What hono's handlers of the gate find in their context. */
export interface GateEnv {
  Bindings: HttpBindings;
  Variables: { channel: Channel; device: Device };
}
