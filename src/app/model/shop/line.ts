import { deviceFrames, type FromDevice, type FromShop, PROTOCOL, shopFrames } from "../../../shared/index.ts";

/** What a connection is asked of a browser's WebSocket. */
export type Socket = Pick<WebSocket, "binaryType" | "onopen" | "onmessage" | "onclose" | "send" | "close">;

export interface LinePorts {
  readonly connect: () => Socket;
  /** Whether the shop still knows this device, asked when a connection is refused; undefined: no answer. */
  readonly isKnown: () => Promise<boolean | undefined>;
  readonly random: () => number;
}

/** `out`: the shop does not know this device (any more). `version`: reload the page. */
export type LineState = "connecting" | "up" | "down" | "out" | "version";

type Hello = Extract<FromShop, { is: "hello" }>;

/** The one connection of this page to its shop; tried again for as long as the page is open. */
export interface Line {
  state(): LineState;
  /** What the shop said of this device. */
  hello(): Hello | undefined;
  /** Sends it where the connection is up. */
  send(message: FromDevice): void;
  /** Called with every message, and with every change of state. */
  listen(listener: LineListener): () => void;
  /** Tries at once, as when the network is back. */
  retry(): void;
  close(): void;
}
export interface LineListener {
  readonly heard?: (message: FromShop) => void;
  readonly changed?: (state: LineState) => void;
}

const FIRST = 250;
const LONGEST = 5000;
/** A connection that says nothing for so long after it was opened is none (ms). */
const PATIENCE = 10_000;
const OUT = 4403;
const VERSION = 4426;

export function lineTo({ connect, isKnown, random }: LinePorts): Line {
  const listeners = new Set<LineListener>();
  let state: LineState = "connecting";
  let socket: Socket | undefined;
  let hello: Hello | undefined;
  let pause = FIRST;
  let timer: ReturnType<typeof setTimeout> | undefined;
  let isClosed = false;

  function turn(next: LineState): void {
    if (state === next) return;
    state = next;
    for (const { changed } of listeners) changed?.(next);
  }

  function again(): void {
    if (isClosed) return;
    clearTimeout(timer);
    // spread, so that all devices of a shop do not come back in the same moment
    timer = setTimeout(dial, pause * (0.5 + random()));
    pause = Math.min(LONGEST, pause * 2);
  }

  function dial(): void {
    clearTimeout(timer);
    if (isClosed || socket) return;
    let mine: Socket;
    try {
      mine = connect();
    } catch {
      again();
      return;
    }
    socket = mine;
    mine.binaryType = "arraybuffer";
    timer = setTimeout(() => mine.close(), PATIENCE);
    mine.onopen = () => mine.send(deviceFrames.encode({ is: "hello", protocol: PROTOCOL }));
    mine.onmessage = ({ data }) => {
      if (socket === mine && data instanceof ArrayBuffer) heard(mine, new Uint8Array(data));
    };
    mine.onclose = ({ code }) => {
      if (socket !== mine) return;
      const wasUp = state === "up";
      socket = undefined;
      clearTimeout(timer);
      void lost(code, wasUp);
    };
  }

  function heard(mine: Socket, frame: Uint8Array): void {
    let message: FromShop;
    try {
      message = shopFrames.decode(frame);
    } catch {
      // what is no message of ours comes from no shop of ours
      mine.close();
      return;
    }
    if (message.is === "refused" && message.reason === "version") {
      isClosed = true;
      turn("version");
      return;
    }
    if (message.is === "hello") {
      hello = message;
      pause = FIRST;
      clearTimeout(timer);
      turn("up");
      return;
    }
    for (const listener of listeners) listener.heard?.(message);
  }

  async function lost(code: number, wasUp: boolean): Promise<void> {
    if (code === VERSION || state === "version") return turn("version");
    if (code === OUT) return end();
    turn("down");
    // a refused handshake says no more than one that found nobody
    if (!wasUp && (await isKnown().catch(() => undefined)) === false) return end();
    again();
  }

  function end(): void {
    isClosed = true;
    clearTimeout(timer);
    turn("out");
  }

  dial();
  return {
    state: () => state,
    hello: () => hello,
    send(message) {
      if (state === "up") socket?.send(deviceFrames.encode(message));
    },
    listen(listener) {
      listeners.add(listener);
      return () => listeners.delete(listener);
    },
    retry() {
      pause = FIRST;
      dial();
    },
    close() {
      isClosed = true;
      clearTimeout(timer);
      socket?.close();
      socket = undefined;
      listeners.clear();
    },
  };
}
