import * as Comlink from "comlink";
import type { AskKind, AskOf } from "./answers/index.ts";
import { fontsOnce } from "./fonts.ts";
import type { CardRequest, ComputeRequest, NotchRequest } from "./protocol.ts";
import { sessionWith } from "./session.ts";
import { toSend } from "./transfer.ts";

const session = sessionWith(fontsOnce());

const api = {
  /** Answered as soon as the worker runs. */
  ping: () => true,
  async compute(request: ComputeRequest) {
    const { answer, buffers } = toSend(await session.compute(request));
    return Comlink.transfer(answer, buffers);
  },
  notch: (request: NotchRequest) => session.notch(request),
  card: (request: CardRequest) => session.card(request),
  preview: (request: CardRequest) => session.preview(request),
  ask: (kind: AskKind, about: AskOf<AskKind>) => session.ask(kind, about as never),
  async pdf(request: CardRequest) {
    const bytes = await session.pdf(request);
    return bytes && Comlink.transfer(bytes, [bytes.buffer as ArrayBuffer]);
  },
};

export type WorkerApi = typeof api;

Comlink.expose(api);
