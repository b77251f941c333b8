import type { HeldOn, Lies } from "../../cards/how-it-lies.ts";
import type { Over } from "../../core/job/reading-types.ts";
import type { Lack } from "../../words/index.ts";
import { isPlain, type ReadingKind } from "../../words/index.ts";
import { mmOf } from "../kit/index.ts";
import { at, isObject, type JobDocument, type Json, type JsonObject } from "../model/document/index.ts";

/** Of a tacked bar: what can be read at a spot on it. */
export const TACK_KINDS = ["tape", "height", "out", "fore"] as const;

/** What an end of the tape, or a rule, is held on. A length stays as it was typed. */
export type EndDraft =
  | { readonly is: "point"; readonly id: string }
  /** `over`: the side of this tube, where that is not the reading's. */
  | { readonly is: "tube"; readonly bar: string; readonly along: Json; readonly over?: Over }
  | { readonly is: "corner"; readonly bar: string; readonly bend: number };

/** A reading while it is being put together. */
export interface Draft {
  readonly kind: ReadingKind;
  readonly ends: readonly [EndDraft | undefined, EndDraft | undefined];
  /** Where the mark lay on a tube. */
  readonly over: Over;
  /** What stood between tube and tape. */
  readonly bead?: Json;
  /** What of the tape is held at its first end; its hook where absent. */
  readonly mark?: Json;
  /** As typed: a length, or degrees. */
  readonly value?: Json;
  /** Its own error, as typed; the shop's where absent. */
  readonly sd?: Json;
}

/** `like`: a draft whose tape is used again, and held the same way. */
export const emptyDraft = (kind: ReadingKind, like?: Pick<Draft, "over" | "mark">): Draft => ({
  kind,
  ends: [undefined, undefined],
  over: like?.over ?? "outside",
  ...(like?.mark === undefined ? {} : { mark: like.mark }),
});

/** How many ends a kind has. */
export const endsOf = (kind: ReadingKind): 0 | 1 | 2 =>
  kind === "lean along" || kind === "lean across"
    ? 0
    : kind === "height" || kind === "out" || kind === "fore"
      ? 1
      : 2;

/** What is still missing; undefined where the reading is whole. */
export function missingIn(draft: Draft): Lack | undefined {
  const [p, q] = draft.ends;
  const many = endsOf(draft.kind);
  if (many >= 1 && !p) return draft.kind === "tape" ? "from" : many === 2 ? "first" : "place";
  if (many === 2 && !q) return draft.kind === "tape" ? "to" : "second";
  if (p?.is === "point" && q?.is === "point" && p.id === q.id) return "same point";
  if (!isPlain(draft.kind) && draft.value === undefined) return "reading";
  const [held, read] = [mmOf(draft.mark), mmOf(draft.value)];
  if (draft.kind === "tape" && held !== undefined && read !== undefined && held >= read) return "too short";
  return undefined;
}

/**
 * The draft with an end held on a point that was tapped in the picture: the end that waits for it, else the first that
 * is still missing, else the last. A point that an end is held on already changes nothing, nor does one where no end is.
 */
export function withPoint(draft: Draft, id: string, waits?: 0 | 1): Draft {
  const many = endsOf(draft.kind);
  const isHeld = draft.ends.some((e) => e?.is === "point" && e.id === id);
  if (many === 0 || isHeld) return draft;
  const last = many === 2 ? 1 : 0;
  const k = waits ?? (draft.ends[0] ? last : 0);
  const end: EndDraft = { is: "point", id };
  return { ...draft, ends: k === 0 ? [end, draft.ends[1]] : [draft.ends[0], end] };
}

const point = (e: EndDraft | undefined): string => (e?.is === "point" ? e.id : "");

const onTube = (draft: Draft): boolean => draft.ends.some((e) => e?.is === "tube");

/** A reading of the car as the job keeps it; undefined while something is missing. */
export function carReading(draft: Draft): JsonObject | undefined {
  if (missingIn(draft) !== undefined) return undefined;
  // a kind that types nothing has no value to keep
  const { kind, value = null, over, bead } = draft;
  const [p, q] = draft.ends;
  const sd = draft.sd === undefined ? {} : { sd: draft.sd };
  const mark = draft.mark === undefined ? {} : { mark: draft.mark };
  const end = (e: EndDraft | undefined): Json =>
    e?.is === "tube"
      ? {
          bar: e.bar,
          along: e.along,
          ...(e.over ? { over: e.over } : {}),
          ...(bead === undefined ? {} : { bead }),
        }
      : e?.is === "corner"
        ? { bar: e.bar, bend: e.bend }
        : point(e);
  switch (kind) {
    case "tape":
      return { tape: [end(p), end(q)], length: value, ...mark, ...(onTube(draft) ? { over } : {}), ...sd };
    case "height":
      return { height: point(p), z: value, ...sd };
    case "out":
      return { out: point(p), y: value, ...sd };
    case "fore":
      return { fore: point(p), x: value, ...sd };
    case "level":
    case "plumb":
      return { [kind]: [point(p), point(q)], ...sd };
    case "slope":
      return { slope: [point(p), point(q)], angle: value, ...sd };
    case "lean along":
    case "lean across":
      return { lean: kind === "lean along" ? "along" : "across", angle: value, ...sd };
  }
}

/** A reading of a tacked bar as the job keeps it; undefined while something is missing, or where no end is on a bar. */
export function tackedReading(draft: Draft): JsonObject | undefined {
  if (missingIn(draft) !== undefined || !onTube(draft)) return undefined;
  const spot = (e: EndDraft | undefined): Json =>
    e?.is === "tube" ? { bar: e.bar, along: e.along } : point(e);
  const [p, q] = draft.ends;
  const size = { over: draft.over, size: draft.value ?? null };
  const mark = draft.mark === undefined ? {} : { mark: draft.mark };
  return draft.kind === "tape"
    ? { what: "tape", from: spot(p), to: spot(q), ...size, ...mark }
    : { what: draft.kind, of: spot(p), ...size };
}

const heldOn = (end: EndDraft | undefined, over: Over): HeldOn =>
  end?.is === "tube" ? (end.over ?? over) : end?.is === "corner" ? "corner" : "point";

/** How a reading is read, for its picture. */
export function howReadOf({ kind, ends, over, bead }: Draft): Lies {
  if (kind === "tape")
    return {
      kind,
      ends: [heldOn(ends[0], over), heldOn(ends[1], over)],
      bead: bead !== undefined && bead !== 0,
    };
  if (kind === "height" || kind === "out" || kind === "fore")
    return { kind, at: ends[0]?.is === "tube" ? over : "point" };
  return { kind };
}

/** A kept reading, of the car or of a tacked bar, as a draft again: its kind, ends and value; undefined for what is none. */
export function draftOf(reading: Json | undefined): Draft | undefined {
  if (!isObject(reading)) return undefined;
  const over = (at(reading, ["over"]) ?? overOfEnds(reading) ?? "outside") as Over;
  const make = (kind: ReadingKind, ends: readonly (Json | undefined)[], value?: Json): Draft => {
    const bead = beadOf(ends);
    return {
      kind,
      ends: [endOf(ends[0]), endOf(ends[1])],
      over,
      ...(value === undefined ? {} : { value }),
      ...(reading.sd === undefined ? {} : { sd: reading.sd }),
      ...(reading.mark === undefined ? {} : { mark: reading.mark }),
      ...(bead === undefined ? {} : { bead }),
    };
  };
  const { what, tape, height, out, fore, level, plumb, slope, lean } = reading;
  if (what === "tape") return make("tape", [reading.from, reading.to], reading.size);
  if (what === "height" || what === "out" || what === "fore") return make(what, [reading.of], reading.size);
  if (Array.isArray(tape)) return make("tape", tape, reading.length);
  if (typeof height === "string") return make("height", [height], reading.z);
  if (typeof out === "string") return make("out", [out], reading.y);
  if (typeof fore === "string") return make("fore", [fore], reading.x);
  if (Array.isArray(level)) return make("level", level);
  if (Array.isArray(plumb)) return make("plumb", plumb);
  if (Array.isArray(slope)) return make("slope", slope, reading.angle);
  if (typeof lean === "string") return make(`lean ${lean}` as ReadingKind, [], reading.angle);
  return undefined;
}

function overOfEnds(reading: JsonObject): Json | undefined {
  const ends = reading.tape;
  return Array.isArray(ends) ? ends.map((e) => at(e, ["over"])).find((o) => o !== undefined) : undefined;
}

const beadOf = (ends: readonly (Json | undefined)[]): Json | undefined =>
  ends.map((e) => (e === undefined ? undefined : at(e, ["bead"]))).find((b) => b !== undefined);

function endOf(end: Json | undefined): EndDraft | undefined {
  if (typeof end === "string") return { is: "point", id: end };
  if (!isObject(end) || typeof end.bar !== "string") return undefined;
  if (typeof end.bend === "number") return { is: "corner", bar: end.bar, bend: end.bend };
  const side = typeof end.over === "string" ? { over: end.over as Over } : {};
  return { is: "tube", bar: end.bar, along: end.along ?? 0, ...side };
}

/** Points and bars that the job has, for an end to be held on. */
export const pointIds = (document: JobDocument): readonly string[] => {
  const points = document.points;
  return isObject(points) ? Object.keys(points) : [];
};
