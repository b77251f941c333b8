import { EventEmitter } from "node:events";
import type { WebSocket } from "ws";
import { type Line, lineTo, type Socket } from "../../src/app/model/shop/index.ts";
import { type Folder, type Guest, type Hub, type HubPorts, hubOn } from "../../src/server/hub/index.ts";
import type { ShopStore } from "../../src/server/store/index.ts";
import { MemoryStore } from "./memory-store.ts";

/** A folder that is a map. */
export function memoryFolder(
  files: Map<string, string> = new Map(),
): Folder & { readonly files: Map<string, string> } {
  let notes: string | undefined;
  let count = 0;
  const signs = new Map<string, string>();
  return {
    files,
    names: async () => new Map([...files].map(([name, text]) => [name, text])),
    read: async (name) => {
      const text = files.get(name);
      return text === undefined ? undefined : new TextEncoder().encode(text);
    },
    write: async (name, text) => {
      signs.set(name, String(++count));
      files.set(name, text);
    },
    putAway: async (name) => void files.delete(name),
    readNotes: async () => notes,
    writeNotes: async (text) => {
      notes = text;
    },
    watch: () => () => {},
  };
}

/** Both ends of a connection in one process; what is sent arrives in a later turn, in order. */
export function socketPair(): { readonly device: Socket; readonly shop: WebSocket; cut(): void } {
  const shop = new EventEmitter() as EventEmitter & Record<string, unknown>;
  let isOpen = true;
  const close = (code = 1005): void => {
    if (!isOpen) return;
    isOpen = false;
    setImmediate(() => {
      device.onclose?.({ code });
      shop.emit("close", code);
    });
  };
  const device = {
    binaryType: "arraybuffer",
    onopen: null as (() => void) | null,
    onmessage: null as ((event: { readonly data: ArrayBuffer }) => void) | null,
    onclose: null as ((event: { readonly code: number }) => void) | null,
    send: (frame: Uint8Array) => {
      const copy = Buffer.from(frame);
      if (isOpen) setImmediate(() => isOpen && shop.emit("message", copy, true));
    },
    close: () => close(),
  };
  Object.assign(shop, {
    OPEN: 1,
    get readyState() {
      return isOpen ? 1 : 3;
    },
    bufferedAmount: 0,
    isPaused: false,
    pause() {},
    resume() {},
    terminate: () => close(1006),
    close,
    send: (frame: Uint8Array) => {
      const copy = new Uint8Array(frame).buffer;
      if (isOpen) setImmediate(() => isOpen && device.onmessage?.({ data: copy }));
    },
  });
  Object.defineProperty(shop, "readyState", { get: () => (isOpen ? 1 : 3) });
  setImmediate(() => isOpen && device.onopen?.());
  return { device: device as unknown as Socket, shop: shop as unknown as WebSocket, cut: () => close(1006) };
}

export interface TestShop {
  readonly hub: Hub;
  readonly store: ShopStore;
  readonly folder: ReturnType<typeof memoryFolder>;
  /** A device's connection, and how to cut it; `up` says whether a new one is let in. */
  device(guest: Partial<Guest>): TestDevice;
}
export interface TestDevice {
  readonly line: Line;
  cut(): void;
  up: boolean;
}

export async function testShop(ports: Partial<HubPorts> = {}): Promise<TestShop> {
  const store = ports.store ?? new MemoryStore();
  const folder = memoryFolder();
  const names = new Map<string, string>();
  const hub = await hubOn({
    store,
    folder,
    now: () => Date.now(),
    nameOf: async (id) => names.get(id) ?? id,
    ...ports,
  });
  return {
    hub,
    store,
    folder,
    device(given) {
      const guest: Guest = { device: "d1", name: "Shop PC", rights: "all", ...given };
      names.set(guest.device, guest.name);
      let pair: ReturnType<typeof socketPair> | undefined;
      const device = {
        up: true,
        cut: () => pair?.cut(),
        line: lineTo({
          connect: () => {
            if (!device?.up) throw new Error("no network");
            pair = socketPair();
            hub.connect(pair.shop, guest);
            return pair.device;
          },
          isKnown: async () => undefined,
          random: () => 0,
        }),
      } as TestDevice;
      return device;
    },
  };
}
