import type { IncomingMessage, Server } from "node:http";
import type { Duplex } from "node:stream";
import { type WebSocket, WebSocketServer } from "ws";
import { LONGEST } from "../../shared/index.ts";
import { type Channel, channelOf, type Device, type Gate } from "../gate/index.ts";
import { HEADERS } from "../policy.ts";

/** Where a device opens its connection. */
export const LINE = "/shop/line";

/** A device that does not answer for two of these is gone (ms). */
const BEAT = 15_000;

export interface Sockets {
  /** Takes upgrades of a listener. */
  on(server: Server): void;
  close(): void;
}

/** Connections of devices: nobody else's, from no other page, and none that is dead. */
export function sockets(
  gate: Pick<Gate, "isOwn" | "deviceOf">,
  connect: (socket: WebSocket, device: Device) => void,
): Sockets {
  // what is sent is compressed by its format as far as it goes; deflating it again would cost each device's memory
  const wss = new WebSocketServer({ noServer: true, maxPayload: LONGEST, perMessageDeflate: false });
  const alive = new WeakSet<WebSocket>();
  const timer = setInterval(() => {
    for (const socket of wss.clients) {
      if (!alive.delete(socket)) socket.terminate();
      else socket.ping();
    }
  }, BEAT);
  timer.unref();

  async function upgrade(request: IncomingMessage, socket: Duplex, head: Buffer): Promise<void> {
    const { host, origin, cookie } = request.headers;
    const path = request.url?.split("?")[0];
    if (path !== LINE) return refuse(socket, 404);
    if (origin === undefined || !gate.isOwn(host, origin)) return refuse(socket, 403);
    const channel: Channel = channelOf(request);
    const device = await gate.deviceOf({ cookie }, channel).catch(() => undefined);
    if (!device) return refuse(socket, 401);
    wss.handleUpgrade(request, socket, head, (ws) => {
      alive.add(ws);
      ws.on("pong", () => alive.add(ws));
      connect(ws, device);
    });
  }

  return {
    on(server) {
      server.on("upgrade", (request, socket, head) => {
        socket.on("error", () => socket.destroy());
        upgrade(request, socket, head).catch(() => refuse(socket, 500));
      });
    },
    close() {
      clearInterval(timer);
      for (const socket of wss.clients) socket.terminate();
      wss.close();
    },
  };
}

function refuse(socket: Duplex, status: number): void {
  const headers = [["Connection", "close"], ["Content-Length", "0"], ...Object.entries(HEADERS)];
  socket.end(`HTTP/1.1 ${status} Refused\r\n${headers.map(([n, v]) => `${n}: ${v}\r\n`).join("")}\r\n`);
}
