import { mirrored } from "../../space/index.ts";
import { extent, sizeOf } from "../../tube/index.ts";
import type { Judged } from "../judge/index.ts";
import type { FitBar, Obstacle, Over, Pose } from "../scene/index.ts";

/**
 * What was found out so far, for the next time. Plain data that its owner keeps and hands in (it is added to in
 * place); it may be copied to another thread. Nothing in it goes by names of jobs: a bar, or a part of the body, is
 * known again by its very shape, so that an edit forgets what it touched and nothing else.
 */
export interface FitMemory {
  /** Every shape met so far, by a number. */
  readonly shapes: Map<string, number>;
  /** Answers by the number of the bar (its shape, its cuts, its hosts), oldest first. */
  readonly answers: Map<number, Remembered[]>;
}

export interface Remembered {
  /** Numbers of all that stood, least first. */
  readonly among: readonly number[];
  readonly nodes: number;
  readonly seed: number;
  readonly most: number;
  readonly judged: Judged;
}

export const newMemory = (): FitMemory => ({ shapes: new Map(), answers: new Map() });

/** Answers kept of one bar. */
const KEPT = 16;

/** Numbers for shapes, each worked out once in the life of this reader. */
export interface Numbers {
  readonly own: (b: FitBar, over: Over) => number;
  readonly bar: (b: FitBar) => number;
  readonly part: (o: Obstacle) => number;
}

export function numbersOf(memory: FitMemory): Numbers {
  const known = new Map<object, number>();
  const once = (thing: object, text: () => string): number => {
    const kept = known.get(thing);
    if (kept !== undefined) return kept;
    const n = numberOf(memory, text());
    known.set(thing, n);
    return n;
  };
  return {
    own: (b, over) => numberOf(memory, ownText(b, over)),
    bar: (b) => once(b.bar, () => barText(b.bar)),
    part: (o) => once(o, () => partText(o)),
  };
}

function numberOf({ shapes }: FitMemory, text: string): number {
  const kept = shapes.get(text);
  if (kept !== undefined) return kept;
  shapes.set(text, shapes.size);
  return shapes.size - 1;
}

const barText = ({ id, tube, centreline: c }: FitBar["bar"]): string =>
  JSON.stringify([id, extent(tube), c.start, c.bends.map((b) => [b.corner, b.clr]), c.finish]);

function ownText({ bar, copes, hosts }: FitBar, over: Over): string {
  const cut = (["A", "B"] as const).map((e) => [
    bar.seat[e],
    copes[e].cope.least,
    copes[e].cope.greatest,
    hosts[e].map(barText),
    over[e] ?? 0,
  ]);
  return JSON.stringify([barText(bar), sizeOf(bar.tube).wall, cut]);
}

/** Lists of numbers are kept apart from plain arrays so that they print. */
const partText = (o: Obstacle): string =>
  JSON.stringify(o, (_, v: unknown) => (v instanceof Float64Array ? [...v] : v));

const within = (a: readonly number[], b: readonly number[]): boolean => {
  const all = new Set(b);
  return a.every((n) => all.has(n));
};

/** What is remembered that answers at once, or is worth a try. */
export interface Recalled {
  readonly answer?: Judged;
  /** The answer where none of the tries is good any more. */
  readonly otherwise?: Judged;
  readonly joint?: Judged["joint"];
  readonly tries: readonly Judged[];
}

/**
 * Looks for an answer: the very same question; a "no" among fewer things (more do not let it in); else ways that were
 * good among other things, to be swept anew, newest first. A way among more things is one among fewer, but is swept
 * all the same, as its clearance may be more. One that needs springing is worth a try only where no less stands than
 * when it was found, or where its joints hold it by proof: with less in the way it might go free.
 */
export function recall(
  memory: FitMemory,
  own: number,
  among: readonly number[],
  effort: Pick<Remembered, "nodes" | "seed" | "most">,
): Recalled {
  const all = memory.answers.get(own) ?? [];
  const serves = (r: Remembered): boolean =>
    r.nodes >= effort.nodes && r.seed === effort.seed && r.most === effort.most;
  const joint = all[0]?.judged.joint;
  const same = all.find((r) => r.among.length === among.length && within(r.among, among) && serves(r));
  if (same) return { answer: same.judged, tries: [] };
  const no = all.find((r) => r.judged.goesIn === "no" && serves(r) && within(r.among, among));
  const tries = all
    .filter(
      ({ judged, among: then }) =>
        isFree(judged) ||
        (judged.goesIn === "spring" && (judged.proved || judged.leaving === 0 || within(then, among))),
    )
    .map((r) => r.judged)
    .reverse()
    .sort((a, b) => a.spring - b.spring);
  return {
    ...(no ? { otherwise: no.judged } : {}),
    ...(joint ? { joint } : {}),
    tries: tries.slice(0, 3),
  };
}

const isFree = ({ goesIn }: Judged): boolean => goesIn === "free" || goesIn === "touches";

/**
 * A way of a bar's twin, seen in the mirror: a free one, or one whose springing no way spares. What else stood there is
 * not known here, so that one sprung for want of a better would keep a free one from being looked for.
 */
export function recallTwin(memory: FitMemory, twin: number): readonly Judged[] {
  return (memory.answers.get(twin) ?? [])
    .map((r) => r.judged)
    .filter((j) => isFree(j) || (j.goesIn === "spring" && (j.proved || j.leaving === 0)))
    .reverse()
    .sort((a, b) => a.spring - b.spring)
    .slice(0, 1)
    .map(inMirror);
}

export function remember(memory: FitMemory, own: number, answer: Remembered): void {
  const list = memory.answers.get(own) ?? [];
  const same = (r: Remembered): boolean =>
    r.among.length === answer.among.length && within(r.among, answer.among);
  memory.answers.set(own, [...list.filter((r) => !same(r)), answer].slice(-KEPT));
}

/** An answer seen in the mirror y = 0: a turn's axis keeps its y and changes the rest. */
const inMirror = (j: Judged): Judged => ({
  ...j,
  way: j.way.map(
    ({ at, turn: [x, y, z, w] }): Pose => ({ at: mirrored(at), turn: [-x || 0, y, -z || 0, w] }),
  ),
  pushes: j.pushes.map((p) => ({ ...p, at: mirrored(p.at), dir: mirrored(p.dir) })),
  ...(j.slides ? { slides: mirrored(j.slides) } : {}),
});
