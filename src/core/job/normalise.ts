import { given } from "./given.ts";
import { nodeOf } from "./kinds/index.ts";
import { asBuiltOf, madeOf } from "./made.ts";
import { readingOf } from "./readings.ts";
import type { FileJob } from "./schema.ts";
import type { FileBar } from "./schema-bars.ts";
import {
  type Believed,
  type Die,
  type DieTest,
  type End,
  type Job,
  type JobBar,
  type JobPoint,
  NOWHERE,
  type Place,
  type Plate,
  type Tube,
} from "./types.ts";

/** A table without a prototype, so that looking up `constructor` finds nothing. */
function table<In, Out>(
  entries: Readonly<Record<string, In>> | undefined,
  make: (value: In, id: string) => Out,
): Readonly<Record<string, Out>> {
  const out: Record<string, Out> = Object.create(null);
  for (const [id, value] of Object.entries(entries ?? {})) out[id] = make(value, id);
  return out;
}

type Ends<T> = { readonly A?: T | undefined; readonly B?: T | undefined };

const ends = <T>(value: Ends<T>): Partial<Record<End, T>> => given(value);

const believedEnds = (value: Ends<Believed> | undefined) =>
  value === undefined ? {} : { believed: ends(value) };

function bar(file: FileBar, id: string): JobBar {
  const label = file.label ?? id;
  const progress = given({ progress: file.progress, needs: file.needs });
  if ("mirrorOf" in file) {
    const trim = file.trim === undefined ? {} : { trim: ends(file.trim) };
    const fromEnd = file.fromEnd === undefined ? {} : { fromEnd: file.fromEnd };
    return {
      kind: "mirror",
      label,
      mirrorOf: file.mirrorOf,
      ...trim,
      ...fromEnd,
      ...believedEnds(file.believed),
      ...progress,
    };
  }
  return {
    kind: "path",
    label,
    tube: file.tube,
    ...(file.die === undefined ? {} : { die: file.die }),
    path: file.path.map(nodeOf),
    ...(file.follow === undefined ? {} : { follow: given(file.follow) }),
    trim: ends(file.trim ?? {}),
    fromEnd: file.fromEnd ?? "A",
    ...believedEnds(file.believed),
    ...progress,
  };
}

function die(file: NonNullable<FileJob["dies"]>[string]): Die {
  const tests: readonly DieTest[] = (file.tests ?? []).map((test) => given(test));
  const { example: _, ...known } = file;
  return given({ ...known, mark: file.mark ?? 0, arcFactor: file.arcFactor ?? 1, tests });
}

function tube(file: NonNullable<FileJob["tubes"]>[string]): Tube {
  const { example: _, ...known } = file;
  return given(known);
}

function plate(said: NonNullable<FileJob["plates"]>[string]): Plate {
  const { example: _, ...file } = said;
  const normal = unit(file.normal);
  if (!file.along) return given({ ...file, normal });
  const [x, y, z] = file.along;
  const out = x * normal[0] + y * normal[1] + z * normal[2];
  const along = unit([x - out * normal[0], y - out * normal[1], z - out * normal[2]]);
  return given({ ...file, normal, along });
}

function unit([x, y, z]: Place): Place {
  const size = Math.hypot(x, y, z);
  return [x / size, y / size, z / size];
}

function point(file: NonNullable<FileJob["points"]>[string]): JobPoint {
  if (Array.isArray(file)) return { at: file, sd: NOWHERE };
  const sd = file.sd ?? 0;
  return given({ at: file.at, sd: typeof sd === "number" ? ([sd, sd, sd] as const) : sd });
}

function shop(file: FileJob["shop"]): Job["shop"] {
  const { mark, angle, turn, tape, slope, height, level, plumb } = file?.errors ?? {};
  return {
    gap: file?.gap ?? 1,
    trim: file?.trim ?? 0,
    kerf: file?.kerf ?? 3,
    errors: {
      mark: mark ?? 1,
      angle: angle ?? 0.5,
      turn: turn ?? 1,
      tape: tape ?? 1,
      slope: slope ?? 0.2,
      height: height ?? 1,
      level: level ?? 1,
      plumb: plumb ?? 1,
    },
    ...(file?.torch === undefined ? {} : { torch: file.torch }),
  };
}

/** The figures that are examples, by the thing that has them; nothing where the shop has set or confirmed all. */
function examplesOf(file: FileJob): Pick<Job, "examples"> {
  const among = (things: Readonly<Record<string, { readonly example?: readonly string[] }>> | undefined) =>
    table(
      Object.fromEntries(Object.entries(things ?? {}).filter(([, thing]) => thing.example?.length)),
      ({ example = [] }) => example,
    );
  const examples = {
    tubes: among(file.tubes as never),
    dies: among(file.dies as never),
    plates: among(file.plates as never),
    shop: file.shop?.example ?? [],
  };
  const isNone = [examples.tubes, examples.dies, examples.plates, examples.shop].every(
    (one) => Object.keys(one).length === 0,
  );
  return isNone ? {} : { examples };
}

/** The job that a document stands for, whose shape, names and landings have been checked: defaults in, lengths in mm. */
export function normalise(file: FileJob): Job {
  const settings = shop(file.shop);
  return {
    format: file.format,
    version: file.version,
    name: file.name ?? "",
    show: { length: file.show?.length ?? "mm", fraction: file.show?.fraction ?? 16 },
    tubes: table(file.tubes, tube),
    dies: table(file.dies, die),
    plates: table(file.plates, plate),
    points: table(file.points, point),
    bars: table(file.bars, bar),
    ...(file.setUp === undefined
      ? {}
      : {
          setUp: {
            done: file.setUp.done ?? [],
            doorGaps: (file.setUp.doorGaps ?? []).map((gap) => given(gap)),
          },
        }),
    readings: (file.readings ?? []).map(readingOf),
    bender: given({ height: file.bender?.height, turnSide: file.bender?.turnSide ?? "left" }),
    notcher: given({
      saws: file.notcher?.saws ?? [],
      steepest: file.notcher?.steepest,
      wrapBeyond: file.notcher?.wrapBeyond ?? settings.gap,
    }),
    shop: settings,
    rack: file.rack ?? [],
    body: {
      lines: table(file.body?.lines, (places) => places),
      skin: table(file.body?.skin, (places) => places),
      ...given({
        openings: file.body?.openings && table(file.body.openings, (places) => places),
        panels:
          file.body?.panels && table(file.body.panels, (p) => ({ edge: p.edge, openings: p.openings ?? [] })),
        roof: file.body?.roof,
      }),
    },
    ...(file.asBuilt === undefined ? {} : { asBuilt: table(file.asBuilt, asBuiltOf) }),
    ...(file.made === undefined ? {} : { made: table(file.made, madeOf) }),
    ...(file.cards === undefined ? {} : { cards: table(file.cards, (card) => card) }),
    ...(file.order === undefined ? {} : { order: file.order }),
    ...examplesOf(file),
    ...(file.driver === undefined ? {} : { driver: given(file.driver) }),
  };
}
