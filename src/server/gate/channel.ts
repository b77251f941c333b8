import type { IncomingMessage } from "node:http";
import { isLoopbackName } from "./addresses.ts";

/** How a request came. */
export interface Channel {
  /** Over TLS. */
  readonly secure: boolean;
  /** From this machine itself, asked for under its loopback name. */
  readonly loopback: boolean;
}

/**
 * Also for an upgrade to a WebSocket. Whoever comes through another program of this machine (a proxy) asks under
 * another name, and is not taken for the machine itself.
 */
export function channelOf({ socket, headers }: Pick<IncomingMessage, "socket" | "headers">): Channel {
  const name = headers.host?.toLowerCase().replace(/:\d+$/, "") ?? "";
  return {
    secure: "encrypted" in socket && socket.encrypted === true,
    loopback: isLoopbackName(name) && /^(::ffff:)?127\./.test(socket.remoteAddress ?? ""),
  };
}

/** Who asks, as far as the network tells. */
export const addressOf = ({ socket }: Pick<IncomingMessage, "socket">): string =>
  (socket.remoteAddress ?? "").replace(/^::ffff:/, "");
