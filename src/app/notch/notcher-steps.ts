import {
  type Cope,
  carriedAngle,
  gapSide,
  joinedArcs,
  type Notch,
  type SawFit,
  squareDirection,
} from "../../core/cope/index.ts";
import type { End, Tube } from "../../core/job/index.ts";
import { deg, wrapPi } from "../../core/numeric/index.ts";
import { angleBetween, cross, dot, neg, rejection } from "../../core/space/index.ts";
import {
  fromSawn,
  GAP_FIGURE,
  HEELS,
  inLine,
  NO_OFFSET,
  NOTCHER_SAYS,
  NOTCHER_STEPS,
  roundTube,
  type Step,
  sayArcs,
  sayClock,
  sayClockFrom,
  sayZeroLine,
  sentence,
  TRUE_SIZE,
  whyNoSaw,
} from "../../words/index.ts";
import type { Write } from "../kit/index.ts";
import type { BarResult } from "../model/compute/index.ts";

/** What each kind of step must be done with care for: a wrap is cut hot or ground, a fit is filed and ground. */
export const CAUTIONED: Readonly<Record<NotcherStep["kind"], readonly Step[]>> = {
  wrap: ["hot cutting", "grinding", "fire watch"],
  flat: ["saw"],
  saw: ["notcher"],
  turn: ["notcher"],
  offset: ["notcher"],
  cut: ["notcher"],
  fit: ["grinding"],
};

/** One step at the notcher, of one end. */
export interface NotcherStep {
  readonly key: string;
  readonly kind: "wrap" | "saw" | "turn" | "offset" | "cut" | "flat" | "fit";
  readonly end: End;
  readonly does: string;
  readonly figure?: string;
  readonly says: readonly string[];
  /** Where the end's heel or long point is: φ from the zero line (radians). */
  readonly clock?: number;
  /** Notch angle of this cut off square (radians). */
  readonly notch?: number;
}

export interface ShopLimits {
  /** Gap beyond which the wrap is used (mm). */
  readonly gap: number;
}

/** All steps of one end at the notcher. `notch` is undefined for an end that is sawn flat. */
export function notcherSteps(
  result: BarResult,
  end: End,
  notch: Notch | undefined,
  limits: ShopLimits,
  write: Write,
  called: (id: string) => string = (id) => id,
): readonly NotcherStep[] {
  const cope = result.copes[end];
  const step: MakeStep = (kind, does, more) => ({
    key: `${end} ${kind} ${more.key ?? ""}`.trim(),
    kind,
    end,
    does,
    ...withoutKey(more),
  });
  if (cope.kind === "square") return [step("flat", NOTCHER_STEPS.square, { says: [NOTCHER_SAYS.free(end)] })];
  if (cope.kind === "plate") return [flat(result, end, write, step)];
  const onto = inLine(cope.onto.map(called));
  if (!notch) return [];
  if (notch.cuts.length > 0) return crowdSteps(end, cope, notch, write, called, step);
  const { saw, hole } = notch;
  if (notch.useWrap || !saw || !hole) return wrapSteps(onto, end, cope, notch, limits, write, step);
  const { cut } = saw;
  const open = sayArcs(joinedArcs(notch.open), write);
  const steps = [
    step("saw", NOTCHER_STEPS.holeSaw, {
      figure: write.size(2 * cut.radius),
      says: [NOTCHER_SAYS.seat(end, onto, notch.exact ? "exact" : notch.flush ? "flush" : "near")],
    }),
    step("turn", NOTCHER_STEPS.turn, {
      figure: write.angle(Math.abs(deg(wrapPi(cut.clock)))),
      clock: cut.clock,
      says: [
        turnSays(cut.clock, result.bar.tube, write),
        NOTCHER_SAYS.zero(sayZeroLine(cope.zeroLine), cut.notch === 0),
      ],
    }),
  ];
  if (Math.abs(cut.offset) >= NO_OFFSET)
    steps.push(
      step("offset", NOTCHER_STEPS.offset, {
        figure: write.fine(Math.abs(cut.offset)),
        clock: cut.clock,
        says: [NOTCHER_SAYS.offset(cut.offset, write)],
      }),
    );
  const cuts = notch.steps?.steps ?? [{ notch: cut.notch, outboard: 0, shows: undefined }];
  for (const [i, c] of cuts.entries()) {
    const last = i === cuts.length - 1;
    const shows =
      last || !c.shows
        ? NOTCHER_SAYS.final(
            { exact: notch.exact, ...(notch.flush ? { open } : {}), mm: saw.gap, at: saw.gapAt },
            write,
          )
        : NOTCHER_SAYS.between(c.shows.standsOff, c.shows.gap, gapSide(c.shows), write);
    steps.push(
      step("cut", NOTCHER_STEPS.cut(i + 1, cuts.length), {
        key: `${i}`,
        figure: write.angle(deg(c.notch)),
        notch: c.notch,
        clock: cut.clock,
        says: [
          NOTCHER_SAYS.hole(
            fromSawn(hole.fromSawn - c.outboard, end, write),
            last ? undefined : c.outboard,
            write,
          ),
          shows,
          ...(i === 0 && !last && notch.steps ? [startSays(notch.steps, write)] : []),
        ],
      }),
    );
  }
  steps.push(
    step("fit", NOTCHER_STEPS.gap, {
      figure: notch.exact ? GAP_FIGURE.none : notch.flush ? GAP_FIGURE.part : write.fine(saw.gap),
      says: [
        notch.exact
          ? NOTCHER_SAYS.seated
          : notch.flush
            ? NOTCHER_SAYS.flush
            : NOTCHER_SAYS.unfiled(saw.standsOff, saw.most, saw.mostAt, write),
        ...(notch.open.length > 0 ? [NOTCHER_SAYS.open(open)] : []),
      ],
    }),
  );
  return steps;
}

type MakeStep = (
  kind: NotcherStep["kind"],
  does: string,
  more: Partial<NotcherStep> & Pick<NotcherStep, "says">,
) => NotcherStep;

/** What to do first: shallow, or at the angle believed, and what to add to the allowance. */
function startSays({ ruleHolds, range, leave }: NonNullable<Notch["steps"]>, write: Write): string {
  const isRange = range[1] - range[0] > 1e-9 && leave > 0.005;
  return (
    NOTCHER_SAYS.start(ruleHolds) +
    (isRange ? NOTCHER_SAYS.range(deg(range[0]), deg(range[1]), leave, write) : "")
  );
}

/** The wrap's own steps; the hole saw only roughs out. */
function wrapSteps(
  onto: string,
  end: End,
  cope: Cope,
  notch: Notch,
  limits: ShopLimits,
  write: Write,
  step: MakeStep,
): readonly NotcherStep[] {
  const { saw, hole } = notch;
  return [
    step("wrap", NOTCHER_STEPS.wrap, {
      key: "print",
      says: [
        saw
          ? NOTCHER_SAYS.byGap(onto, saw.gap, saw.gapAt, limits.gap, write)
          : NOTCHER_SAYS.noSaw(onto, whyNoSaw(notch, write.size)),
        TRUE_SIZE,
      ],
    }),
    step("wrap", NOTCHER_STEPS.close, {
      key: "close",
      says: [NOTCHER_SAYS.close(sayZeroLine(cope.zeroLine)), NOTCHER_SAYS.base],
    }),
    step("wrap", NOTCHER_STEPS.scribe, { key: "scribe", says: [NOTCHER_SAYS.scribe] }),
    step("wrap", NOTCHER_STEPS.toLine, {
      key: "cut",
      ...(saw ? { clock: saw.cut.clock } : {}),
      says: [
        ...(saw && hole ? roughSays(saw, hole.fromSawn, end, write) : [NOTCHER_SAYS.byHand]),
        ...(notch.open.length > 0 ? [NOTCHER_SAYS.open(sayArcs(joinedArcs(notch.open), write))] : []),
      ],
    }),
  ];
}

const roughSays = ({ cut, most }: SawFit, centre: number, end: End, write: Write): readonly string[] => [
  NOTCHER_SAYS.rough(2 * cut.radius, deg(cut.notch), write),
  NOTCHER_SAYS.roughAt(sayClockFrom(cut.clock, write), fromSawn(centre, end, write), cut.offset, write),
  NOTCHER_SAYS.toFile(most, write),
];

/** A crowded end: one cut for each host makes the seat; the wrap would do as well. */
function crowdSteps(
  end: End,
  cope: Cope,
  { cuts, open }: Notch,
  write: Write,
  called: (id: string) => string,
  step: MakeStep,
): readonly NotcherStep[] {
  return cuts.map(({ host, cut, hole }, i) =>
    step("cut", NOTCHER_STEPS.cutFor(called(host)), {
      key: `crowd ${i}`,
      figure: write.angle(deg(cut.notch)),
      notch: cut.notch,
      clock: cut.clock,
      says: [
        NOTCHER_SAYS.crowd(2 * cut.radius, sayClockFrom(cut.clock, write), write),
        NOTCHER_SAYS.crowdHole(fromSawn(hole.fromSawn, end, write), cut.offset, write),
        ...(i === 0
          ? [
              NOTCHER_SAYS.crowdHow(sayZeroLine(cope.zeroLine)),
              ...(open.length > 0 ? [NOTCHER_SAYS.open(sayArcs(joinedArcs(open), write))] : []),
            ]
          : []),
      ],
    }),
  );
}

function withoutKey<T extends { readonly key?: string }>(more: T): Omit<T, "key"> {
  const { key: _, ...rest } = more;
  return rest;
}

/** A plate leans less off square than this: no clock needed (radians). */
const LEVEL = (0.01 * Math.PI) / 180;

function flat(result: BarResult, end: End, write: Write, step: MakeStep): NotcherStep {
  const cope = result.copes[end];
  const seat = result.bar.seat[end];
  const tilt = seat.kind === "plate" ? angleBetween(cope.out, neg(seat.normal)) : 0;
  if (seat.kind !== "plate" || tilt < LEVEL)
    return step("flat", NOTCHER_STEPS.square, { says: [NOTCHER_SAYS.onPlate(end)] });
  const side = rejection(seat.normal, cope.out);
  const clock = Math.atan2(dot(side, cross(cope.out, cope.zero)), dot(side, cope.zero));
  return step("flat", NOTCHER_STEPS.flat, {
    figure: write.angle(deg(tilt)),
    clock,
    says: [
      NOTCHER_SAYS.leaning(sayClockFrom(clock, write), roundTube(clock, result.bar.tube, write)),
      NOTCHER_SAYS.longToShort(cope.greatest - cope.least, sayZeroLine(cope.zeroLine), write),
    ],
  });
}

function turnSays(phi: number, tube: Tube, write: Write): string {
  const clock = sayClock(phi, write);
  return clock.includes("zero line")
    ? sentence(clock)
    : NOTCHER_SAYS.turn(wayOf(wrapPi(phi) < 0), roundTube(phi, tube, write));
}

/**
 * How end B's heel is to end A's, as one sentence; undefined where one of them is alike all round, or has no saw
 * cut. Heels are carried along the bar without twist.
 */
export function standing(
  result: BarResult,
  a: Notch | undefined,
  b: Notch | undefined,
  write: Write,
): string | undefined {
  if (!a?.saw || !b?.saw) return undefined;
  const { A, B } = result.copes;
  const [ca, cb] = [a.saw.cut.clock, b.saw.cut.clock];
  const angle = carriedAngle(result.bar, squareDirection(A, ca), squareDirection(B, cb));
  const size = Math.abs(deg(angle));
  if (a.saw.cut.notch < 1e-4 || b.saw.cut.notch < 1e-4) return squareOn(size, angle, result, write);
  if (size < 0.05) return HEELS.line;
  if (180 - size < 0.05) return HEELS.opposite;
  return HEELS.turned(size, wayOf(angle > 0), roundTube(angle, result.bar.tube, write), write);
}

const wayOf = (isClockwise: boolean): "clockwise" | "counter-clockwise" =>
  isClockwise ? "clockwise" : "counter-clockwise";

/** A square notch has two heels: the lesser of both turns counts. */
function squareOn(size: number, angle: number, result: BarResult, write: Write): string {
  const turn = size > 90 ? 180 - size : size;
  const isClockwise = size > 90 ? angle < 0 : angle > 0;
  if (turn < 0.05) return HEELS.squareLine;
  const round = roundTube((turn * Math.PI) / 180, result.bar.tube, write);
  return HEELS.squareTurned(turn, wayOf(isClockwise), round, write);
}
