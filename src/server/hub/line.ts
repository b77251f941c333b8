import type { RawData, WebSocket } from "ws";
import * as Y from "yjs";
import {
  BadFrame,
  deviceFrames,
  type FromDevice,
  type FromShop,
  PROTOCOL,
  type Reason,
  type Rights,
  shopFrames,
} from "../../shared/index.ts";
import type { ShopStore } from "../store/index.ts";
import type { Jobs, Member, OpenJob, Tell } from "./jobs.ts";
import { isKnown, isUpdate } from "./load.ts";
import { isMark } from "./marks.ts";

/** Why a connection is closed, as WebSocket codes (RFC 6455, 7.4; 4000 and up are ours). */
export const CLOSED = {
  rubbish: 1007,
  restart: 1012,
  out: 4403,
  slow: 4408,
  version: 4426,
} as const;

/** A device that does not take what is sent to it is cut off here (bytes). */
const MOST_UNSENT = 4 * 1024 * 1024;
/** A device is not read from while this much of it is not stored (bytes). */
const MOST_UNSTORED = 4 * 1024 * 1024;
const MOST_CHANNELS = 64;
const LONGEST_NAME = 200;
/** As many changes of others are told one by one, with who made them; more come as one. */
const TOLD = 500;

/** A device that is let in. */
export interface Guest {
  readonly device: string;
  readonly name: string;
  readonly rights: Rights;
}

export interface LinePorts {
  readonly jobs: Jobs;
  readonly store: Pick<ShopStore, "history">;
  readonly nameOf: (device: string) => Promise<string>;
  /** Whether a job may be opened: `isNew` where it may be made. Says why not. */
  readonly admit: (job: string, isNew: boolean, guest: Guest) => Promise<Reason | undefined>;
}

interface Channel {
  readonly ready: Promise<{ readonly job: OpenJob; readonly member: Member } | undefined>;
  /** After a change that was not taken, those behind it are not either, until the channel is opened anew. */
  isBroken: boolean;
  isLeft: boolean;
  /** The change before, for a guest whose changes are judged by what they do to the job: one at a time. */
  before: Promise<void>;
}

export interface Line {
  readonly guest: Guest;
  readonly send: (message: FromShop) => void;
  readonly close: (code: number) => void;
}

/** One device's connection. Everything it sends wrong ends this connection, and nothing else. */
export function lineOf(socket: WebSocket, guest: Guest, ports: LinePorts): Line {
  const channels = new Map<number, Channel>();
  let unstored = 0;
  let isGreeted = false;

  function send(message: FromShop): void {
    if (socket.readyState !== socket.OPEN) return;
    if (socket.bufferedAmount > MOST_UNSENT) {
      socket.terminate();
      return;
    }
    socket.send(shopFrames.encode(message));
  }

  function weigh(bytes: number): void {
    unstored += bytes;
    if (unstored > MOST_UNSTORED) socket.pause();
    else if (unstored < MOST_UNSTORED / 4 && socket.isPaused) socket.resume();
  }

  const refuse = (channel: number, n: number, reason: Reason): void =>
    send({ is: "refused", channel, n, reason });

  function open(message: Extract<FromDevice, { is: "open" }>): void {
    const { channel, job } = message;
    if (channels.has(channel) || channels.size >= MOST_CHANNELS || job === "" || job.length > LONGEST_NAME)
      throw new BadFrame("channel");
    const mine: Channel = {
      ready: joined(message),
      isBroken: false,
      isLeft: false,
      before: Promise.resolve(),
    };
    channels.set(channel, mine);
    async function joined({ vector, seen, isNew }: typeof message) {
      try {
        const no = await ports.admit(job, isNew, guest);
        if (no) {
          refuse(channel, 0, no);
          return undefined;
        }
        const told = seen > 0 ? await toldOf(job, seen) : [];
        const opened = await ports.jobs.get(job);
        // from here on in one turn: no change slips between what is told and what is sent on
        if (mine.isLeft || socket.readyState !== socket.OPEN) return undefined;
        for (const change of told) send({ is: "change", channel, ...change });
        const member: Member = {
          device: guest.device,
          name: guest.name,
          send: (m: Tell) => send({ ...m, channel } as FromShop),
        };
        send({
          is: "opened",
          channel,
          vector: Y.encodeStateVector(opened.doc),
          update: Y.encodeStateAsUpdate(opened.doc, vector),
          seq: opened.seq,
          at: opened.at,
        });
        ports.jobs.join(opened, member);
        return { job: opened, member };
      } catch (error) {
        if (error instanceof RangeError || error instanceof TypeError) socket.close(CLOSED.rubbish);
        else refuse(channel, 0, "not stored");
        return undefined;
      }
    }
  }

  /** What others changed since, one by one with who made it; nothing where that is too much. */
  async function toldOf(job: string, after: number) {
    const rows = await ports.store.history(job, after, TOLD + 1);
    if (rows.length > TOLD) return [];
    const others = rows.filter((row) => row.device !== guest.device);
    return Promise.all(
      others.map(async ({ seq, seen, at, device, update }) => ({
        seq,
        seen,
        at,
        by: await ports.nameOf(device),
        update,
      })),
    );
  }

  async function change(message: Extract<FromDevice, { is: "change" }>, mine: Channel): Promise<void> {
    const { channel, n, seen, update } = message;
    const there = await mine.ready;
    if (!there || mine.isBroken || mine.isLeft) return;
    const { job, member } = there;
    const no = refusal(job, update);
    if (!no && isKnown(job.doc, update)) {
      send({ is: "acked", channel, n, seq: job.seq, at: job.at });
      return;
    }
    const fate = no ? { no } : await ports.jobs.commit(job.id, { ...guest, seen }, update, member);
    if (mine.isLeft) return;
    if ("seq" in fate) {
      send({ is: "acked", channel, n, seq: fate.seq, at: fate.at });
      return;
    }
    mine.isBroken = true;
    refuse(channel, n, "no" in fate ? fate.no : fate.why === "full" ? "full" : "not stored");
  }

  function refusal(job: OpenJob, update: Uint8Array): Reason | undefined {
    if (job.isGone) return "gone";
    if (!isUpdate(update)) return "unreadable";
    if (guest.rights === "all" || isMark(job.doc, update)) return undefined;
    return "not allowed";
  }

  async function leave(channel: number): Promise<void> {
    const mine = channels.get(channel);
    if (!mine) return;
    mine.isLeft = true;
    channels.delete(channel);
    const there = await mine.ready;
    if (there) ports.jobs.leave(there.job, there.member);
  }

  function heard(message: FromDevice): void {
    if (!isGreeted) {
      if (message.is !== "hello") throw new BadFrame("hello");
      if (message.protocol !== PROTOCOL) {
        refuse(0, 0, "version");
        socket.close(CLOSED.version);
        return;
      }
      isGreeted = true;
      send({ is: "hello", protocol: PROTOCOL, ...guest });
      return;
    }
    if (message.is === "open") open(message);
    else if (message.is === "leave") void leave(message.channel);
    else if (message.is === "hello") throw new BadFrame("hello");
    else {
      const mine = channels.get(message.channel);
      // what was on its way when the channel was left is not wrong
      if (!mine) return;
      if (message.is === "change") {
        weigh(message.update.byteLength);
        const done =
          guest.rights === "all" ? change(message, mine) : mine.before.then(() => change(message, mine));
        mine.before = done.finally(() => weigh(-message.update.byteLength));
      } else void at(message, mine);
    }
  }

  async function at({ station, bar }: Extract<FromDevice, { is: "at" }>, mine: Channel): Promise<void> {
    if (station.length > LONGEST_NAME || bar.length > LONGEST_NAME) return;
    const there = await mine.ready;
    if (!there || mine.isLeft) return;
    if (bar === "" && station === "") delete there.member.at;
    else there.member.at = { station, bar };
    ports.jobs.moved(there.job);
  }

  socket.on("message", (data: RawData, isBinary: boolean) => {
    try {
      if (!isBinary) throw new BadFrame("text");
      heard(deviceFrames.decode(bytesOf(data)));
    } catch (error) {
      if (!(error instanceof BadFrame)) throw error;
      socket.close(CLOSED.rubbish);
    }
  });
  // a connection that breaks is nobody's fault; `close` follows
  socket.on("error", () => {});
  socket.on("close", () => {
    for (const channel of channels.keys()) void leave(channel);
  });
  return { guest, send, close: (code) => socket.close(code) };
}

const bytesOf = (data: RawData): Uint8Array =>
  Array.isArray(data) ? Buffer.concat(data) : data instanceof ArrayBuffer ? new Uint8Array(data) : data;
