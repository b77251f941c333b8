import { readFileSync } from "node:fs";
import { typedLength } from "./typed.ts";
import { toOne, type V } from "./vec.ts";

type Any = Record<string, unknown>;
export type End = "A" | "B";

export type Node =
  | { kind: "at"; at: V }
  | { kind: "point"; point: string; by: V }
  | { kind: "step"; step: V }
  | { kind: "plate"; plate: string }
  | {
      kind: "on";
      on: string;
      along?: number;
      axis?: 0 | 1 | 2;
      value?: number;
      near?: string | V;
      toward?: Node;
      off: V;
      also: string[];
    };

export interface Tube {
  od: number;
  wall: number;
  material?: string | undefined;
}
export interface Die {
  od: number;
  clr: number;
  clamp?: number | undefined;
  between?: number | undefined;
  tail?: number | undefined;
  maxAngle?: number | undefined;
  mark: number;
  arcFactor: number;
  springback?: { k: number; c: number } | undefined;
  tests: { set: number; got: number }[];
}
export interface BarOf {
  label: string;
  mirrorOf?: string | undefined;
  tube: string;
  die?: string | undefined;
  path: Node[];
  follow?: { bar: string; gap: number; side: string | V; from?: number | undefined; to?: number | undefined };
  trim: Partial<Record<End, number>>;
  fromEnd?: End | undefined;
  believed: Partial<Record<End, number | [number, number]>>;
}
/** How far a bar has come, and what the file keeps of how it was made; lengths mm, angles degrees. */
export interface MadeOf {
  progress: string;
  card?: number | undefined;
  sawn?: { card?: number; length: number };
  bent?: {
    card?: number;
    fed: End;
    die: { id?: string; clr: number };
    bends: { n: number; mark: number; angle: number; set?: number; turn: number }[];
  };
  notched?: Partial<
    Record<
      End,
      {
        card?: number;
        by: string;
        cuts?: { diameter: number; angle: number; clock: number; centre: number; offset: number }[];
        over: number;
        finished: number;
      }
    >
  >;
}
export interface JobOf {
  made: Record<string, MadeOf>;
  name: string;
  inch: boolean;
  fraction: number;
  tubes: Record<string, Tube>;
  dies: Record<string, Die>;
  plates: Record<string, { at: V; normal: V; thickness: number; size?: [number, number]; along?: V }>;
  points: Record<string, V>;
  bars: Record<string, BarOf>;
  turnSide: "left" | "right";
  height?: number;
  saws: number[];
  steepest?: number;
  gap: number;
  wrapBeyond: number;
  trim: number;
  kerf: number;
  cards: Record<string, { n: number; code: string; on: string }>;
}

const L = (v: unknown): number => typedLength(v as number | string);
const P = (v: unknown): V => (v as unknown[]).map(L) as unknown as V;
const maybe = <T>(v: unknown, f: (v: unknown) => T): T | undefined => (v === undefined ? undefined : f(v));

function nodeOf(raw: unknown): Node {
  if (Array.isArray(raw)) return { kind: "at", at: P(raw) };
  const n = raw as Any;
  if (n.at !== undefined) return { kind: "at", at: P(n.at) };
  if (n.point !== undefined)
    return { kind: "point", point: n.point as string, by: n.by === undefined ? [0, 0, 0] : P(n.by) };
  if (n.step !== undefined) return { kind: "step", step: P(n.step) };
  if (n.plate !== undefined) return { kind: "plate", plate: n.plate as string };
  const axis = (["x", "y", "z"] as const).findIndex((k) => n[k] !== undefined);
  return {
    kind: "on",
    on: n.on as string,
    ...(n.along === undefined ? {} : { along: L(n.along) }),
    ...(axis < 0 ? {} : { axis: axis as 0 | 1 | 2, value: L(n[["x", "y", "z"][axis]!]) }),
    ...(n.near === undefined ? {} : { near: Array.isArray(n.near) ? P(n.near) : (n.near as string) }),
    ...(n.toward === undefined ? {} : { toward: nodeOf(n.toward) }),
    off: n.off === undefined ? [0, 0, 0] : P(n.off),
    also: (n.also as string[] | undefined) ?? [],
  };
}

const ends = (v: unknown): Partial<Record<End, number>> => {
  const out: Partial<Record<End, number>> = {};
  for (const [k, x] of Object.entries((v as Any) ?? {})) out[k as End] = L(x);
  return out;
};

function barOf(id: string, n: Any, tables: Any): BarOf {
  const follow = n.follow as Any | undefined;
  const own = {
    label: (n.label as string) ?? id,
    trim: ends(n.trim),
    fromEnd: n.fromEnd as End | undefined,
    believed: (n.believed as BarOf["believed"]) ?? {},
  };
  if (n.mirrorOf !== undefined) {
    const of = barOf(n.mirrorOf as string, (tables.bars as Any)[n.mirrorOf as string] as Any, tables);
    return {
      ...of,
      ...own,
      mirrorOf: n.mirrorOf as string,
      trim: { ...of.trim, ...own.trim },
      fromEnd: own.fromEnd ?? of.fromEnd,
    };
  }
  return {
    ...own,
    tube: n.tube as string,
    die: n.die as string | undefined,
    path: (n.path as unknown[]).map(nodeOf),
    ...(follow === undefined
      ? {}
      : {
          follow: {
            bar: follow.bar as string,
            gap: L(follow.gap),
            side: Array.isArray(follow.side) ? P(follow.side) : (follow.side as string),
            from: maybe(follow.from, L),
            to: maybe(follow.to, L),
          },
        }),
  };
}

/** The job file as the second computation takes it: JSON and nothing else. Points need a place of their own. */
export function jobOf(path: string): JobOf {
  const raw = JSON.parse(readFileSync(path, "utf8")) as Any;
  const map = <T>(key: string, f: (v: Any, id: string) => T): Record<string, T> =>
    Object.fromEntries(Object.entries((raw[key] as Any) ?? {}).map(([id, v]) => [id, f(v as Any, id)]));
  const show = (raw.show as Any) ?? {};
  const bender = (raw.bender as Any) ?? {};
  const notcher = (raw.notcher as Any) ?? {};
  const shop = (raw.shop as Any) ?? {};
  const gap = maybe(shop.gap, L) ?? 1;
  return {
    name: (raw.name as string) ?? "",
    inch: show.length === "in",
    fraction: (show.fraction as number) ?? 16,
    tubes: map("tubes", (t) => ({
      od: L(t.od),
      wall: L(t.wall),
      material: t.material as string | undefined,
    })),
    dies: map("dies", (d) => ({
      od: L(d.od),
      clr: L(d.clr),
      clamp: maybe(d.clamp, L),
      between: maybe(d.between, L),
      tail: maybe(d.tail, L),
      maxAngle: d.maxAngle as number | undefined,
      mark: maybe(d.mark, L) ?? 0,
      arcFactor: (d.arcFactor as number) ?? 1,
      springback: d.springback as { k: number; c: number } | undefined,
      tests: ((d.tests as { set: number; got: number }[]) ?? []).map((t) => ({ set: t.set, got: t.got })),
    })),
    plates: map("plates", (p) => ({
      at: P(p.at),
      normal: toOne(p.normal as unknown as V),
      thickness: maybe(p.thickness, L) ?? 3,
      ...(p.size === undefined ? {} : { size: (p.size as unknown[]).map(L) as [number, number] }),
      ...(p.along === undefined ? {} : { along: toOne(p.along as unknown as V) }),
    })),
    points: map("points", (p) => P(Array.isArray(p) ? p : p.at)),
    bars: map("bars", (b, id) => barOf(id, b, raw)),
    turnSide: (bender.turnSide as "left" | "right") ?? "left",
    ...(bender.height === undefined ? {} : { height: L(bender.height) }),
    saws: ((notcher.saws as unknown[]) ?? []).map(L),
    ...(notcher.steepest === undefined ? {} : { steepest: notcher.steepest as number }),
    gap,
    wrapBeyond: maybe(notcher.wrapBeyond, L) ?? gap,
    trim: maybe(shop.trim, L) ?? 0,
    kerf: maybe(shop.kerf, L) ?? 3,
    made: Object.fromEntries(
      Object.entries((raw.bars as Any) ?? {}).flatMap(([id, b]) => {
        const progress = (b as Any).progress as string | undefined;
        const kept = ((raw.made as Any)?.[id] as Any | undefined)?.to as Omit<MadeOf, "progress"> | undefined;
        return progress === undefined || progress === "laid out" ? [] : [[id, { ...kept, progress }]];
      }),
    ),
    cards: (raw.cards as JobOf["cards"] | undefined) ?? {},
  };
}
