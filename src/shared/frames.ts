import { createDecoder, hasContent, readVarString, readVarUint, readVarUint8Array } from "lib0/decoding";
import { createEncoder, toUint8Array, writeVarString, writeVarUint, writeVarUint8Array } from "lib0/encoding";

/** Counted up when an older program could misunderstand a newer one. */
export const PROTOCOL = 1;

/** The longest message in bytes: a job of some 30,000 bars. Whoever sends a longer one is cut off. */
export const LONGEST = 8 * 1024 * 1024;

/** What a device may do: everything, or read and mark progress. */
export type Rights = "all" | "marks";

/** Why something is not taken. */
export type Reason =
  /** The store did not take it; nothing of it is stored. Try again. */
  | "not stored"
  /** The disk is full: nothing of it is stored. Try again when there is room. */
  | "full"
  /** This device may read and mark progress alone. */
  | "not allowed"
  /** There is no such job in the shop, or it is deleted. */
  | "gone"
  /** It is no update of a document. */
  | "unreadable"
  /** The other side speaks another version of this protocol. */
  | "version";

/**
 * What passes between a device and the shop over one WebSocket, all of it binary: a number for the kind, then its
 * fields. A `channel` is an open job, numbered by the device anew on each connection; `seq` is the number under which
 * a change is stored, growing within a job; `n` is the number of a device's change on its channel.
 *
 * Acknowledged means stored: `acked` is sent when the change is on the disk, and not before.
 */
export type FromDevice =
  | { readonly is: "hello"; readonly protocol: number }
  /**
   * Takes part in a job. `vector`: what the device has of it (a Yjs state vector). `seen`: the last `seq` that it has
   * had, 0 for none. `isNew`: it brings the job along where the shop has none of that ID.
   */
  | {
      readonly is: "open";
      readonly channel: number;
      readonly job: string;
      readonly vector: Uint8Array;
      readonly seen: number;
      readonly isNew: boolean;
    }
  /** A change; `seen` as above, so that others know what its maker had not seen. */
  | {
      readonly is: "change";
      readonly channel: number;
      readonly n: number;
      readonly seen: number;
      readonly update: Uint8Array;
    }
  | { readonly is: "leave"; readonly channel: number }
  /** Which bar is in hand at which station; an empty bar: none. */
  | { readonly is: "at"; readonly channel: number; readonly station: string; readonly bar: string };

export type FromShop =
  | {
      readonly is: "hello";
      readonly protocol: number;
      readonly device: string;
      readonly name: string;
      readonly rights: Rights;
    }
  /**
   * The job as the shop has it: what was lacking (`update`), what the shop has (`vector`, so that the device sends the
   * rest), its last `seq` and when that was (milliseconds since 1970).
   */
  | {
      readonly is: "opened";
      readonly channel: number;
      readonly vector: Uint8Array;
      readonly update: Uint8Array;
      readonly seq: number;
      readonly at: number;
    }
  /** A change of another device, `by` its name. `seen`: the last `seq` that its maker had had. */
  | {
      readonly is: "change";
      readonly channel: number;
      readonly seq: number;
      readonly seen: number;
      readonly at: number;
      readonly by: string;
      readonly update: Uint8Array;
    }
  /** All changes up to `n` are stored, the last one as `seq`. */
  | {
      readonly is: "acked";
      readonly channel: number;
      readonly n: number;
      readonly seq: number;
      readonly at: number;
    }
  /** Change `n` is not taken (0: the channel itself). */
  | { readonly is: "refused"; readonly channel: number; readonly n: number; readonly reason: Reason }
  /** Who has which bar in hand, of all devices in the job but this one. */
  | { readonly is: "present"; readonly channel: number; readonly who: readonly Present[] }
  /** The list of jobs, of devices or of named states is another one now: ask again. */
  | { readonly is: "news"; readonly of: News };

export type News = "jobs" | "devices" | "states" | "notices";
const NEWS: readonly News[] = ["jobs", "devices", "states", "notices"];

export interface Present {
  readonly name: string;
  readonly station: string;
  readonly bar: string;
}

const REASONS: readonly Reason[] = ["not stored", "full", "not allowed", "gone", "unreadable", "version"];
const RIGHTS: readonly Rights[] = ["all", "marks"];

type Field<T> = {
  readonly write: (encoder: ReturnType<typeof createEncoder>, value: T) => void;
  readonly read: (decoder: ReturnType<typeof createDecoder>) => T;
};
const count: Field<number> = { write: writeVarUint, read: readVarUint };
const text: Field<string> = { write: writeVarString, read: readVarString };
// a copy: what is read stays when the message it came in is gone
const bytes: Field<Uint8Array> = { write: writeVarUint8Array, read: (d) => readVarUint8Array(d).slice() };
const flag: Field<boolean> = {
  write: (e, v) => writeVarUint(e, v ? 1 : 0),
  read: (d) => readVarUint(d) === 1,
};
function oneOf<T extends string>(list: readonly T[]): Field<T> {
  return {
    write: (e, v) => writeVarUint(e, list.indexOf(v)),
    read: (d) => {
      const value = list[readVarUint(d)];
      if (value === undefined) throw new BadFrame("value");
      return value;
    },
  };
}
const people: Field<readonly Present[]> = {
  write: (e, who) => {
    writeVarUint(e, who.length);
    for (const { name, station, bar } of who) for (const s of [name, station, bar]) writeVarString(e, s);
  },
  read: (d) => {
    const length = readVarUint(d);
    // each takes three bytes at least: a length that cannot be is not made room for
    if (length > (d.arr.length - d.pos) / 3) throw new BadFrame("length");
    return Array.from({ length }, () => ({
      name: readVarString(d),
      station: readVarString(d),
      bar: readVarString(d),
    }));
  },
};

/** Bytes that are no message of this protocol. */
export class BadFrame extends Error {
  override readonly name = "BadFrame";
}

// biome-ignore lint/suspicious/noExplicitAny: a table by kind; what comes out is typed by `coder`
type Table = Readonly<Record<string, readonly (readonly [string, Field<any>])[]>>;

const fromDevice: Table = {
  hello: [["protocol", count]],
  open: [
    ["channel", count],
    ["job", text],
    ["vector", bytes],
    ["seen", count],
    ["isNew", flag],
  ],
  change: [
    ["channel", count],
    ["n", count],
    ["seen", count],
    ["update", bytes],
  ],
  leave: [["channel", count]],
  at: [
    ["channel", count],
    ["station", text],
    ["bar", text],
  ],
};

const fromShop: Table = {
  hello: [
    ["protocol", count],
    ["device", text],
    ["name", text],
    ["rights", oneOf(RIGHTS)],
  ],
  opened: [
    ["channel", count],
    ["vector", bytes],
    ["update", bytes],
    ["seq", count],
    ["at", count],
  ],
  change: [
    ["channel", count],
    ["seq", count],
    ["seen", count],
    ["at", count],
    ["by", text],
    ["update", bytes],
  ],
  acked: [
    ["channel", count],
    ["n", count],
    ["seq", count],
    ["at", count],
  ],
  refused: [
    ["channel", count],
    ["n", count],
    ["reason", oneOf(REASONS)],
  ],
  present: [
    ["channel", count],
    ["who", people],
  ],
  news: [["of", oneOf(NEWS)]],
};

interface Coder<M> {
  readonly encode: (message: M) => Uint8Array<ArrayBuffer>;
  /** Throws `BadFrame` for anything that is not exactly one message. */
  readonly decode: (frame: Uint8Array) => M;
}

function coder<M extends { readonly is: string }>(table: Table): Coder<M> {
  const kinds = Object.keys(table);
  return {
    encode(message) {
      const encoder = createEncoder();
      writeVarUint(encoder, kinds.indexOf(message.is));
      for (const [key, field] of table[message.is] ?? []) field.write(encoder, message[key as keyof M]);
      return toUint8Array(encoder) as Uint8Array<ArrayBuffer>;
    },
    decode(frame) {
      try {
        const decoder = createDecoder(frame);
        const is = kinds[readVarUint(decoder)];
        const fields = is === undefined ? undefined : table[is];
        if (!fields) throw new BadFrame("kind");
        const message: Record<string, unknown> = { is };
        for (const [key, field] of fields) message[key] = field.read(decoder);
        if (hasContent(decoder)) throw new BadFrame("longer than a message");
        return message as unknown as M;
      } catch (error) {
        if (error instanceof BadFrame) throw error;
        throw new BadFrame((error as Error).message);
      }
    },
  };
}

export const deviceFrames = coder<FromDevice>(fromDevice);
export const shopFrames = coder<FromShop>(fromShop);
