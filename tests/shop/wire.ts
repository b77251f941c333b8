import { WebSocket } from "ws";
import { type Line, lineTo, type Socket } from "../../src/app/model/shop/index.ts";

/** A paired device's connection to the shop at a port of this machine, tried again for as long as it is not closed. */
export const lineAt = (port: number | string, cookie: string): Line =>
  lineTo({
    connect: () => {
      const host = `127.0.0.1:${port}`;
      const socket = new WebSocket(`ws://${host}/shop/line`, {
        headers: { Cookie: cookie, Origin: `http://${host}` },
      });
      // `close` follows
      socket.on("error", () => {});
      return socket as unknown as Socket;
    },
    isKnown: async () => undefined,
    random: Math.random,
  });
