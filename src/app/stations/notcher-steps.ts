// Not by the room's index: that one draws whole cards and brings the PDF writer, which no station needs at once.

import {
  type Cope,
  carriedAngle,
  gapSide,
  joinedArcs,
  type Notch,
  type SawFit,
  squareDirection,
} from "../../core/cope/index.ts";
import type { End } from "../../core/job/index.ts";
import { deg, wrapPi } from "../../core/numeric/index.ts";
import { between, cross, dot, neg, square } from "../../core/space/index.ts";
import {
  roundTube,
  type Step,
  sayArcs,
  sayClock,
  sayZeroLine,
  TRUE_SIZE,
  whyNoSaw,
} from "../../words/index.ts";
import type { BarResult } from "../compute/index.ts";
import type { Write } from "./write.ts";

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
  /** Where the end's heel or long point stands: φ from the zero line (radians). */
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
  if (cope.kind === "square")
    return [
      step("flat", "Saw square", { says: [`End ${end} lands on nothing: square to the tube all round.`] }),
    ];
  if (cope.kind === "plate") return [flat(result, end, write, step)];
  const onto = cope.onto.map(called).join(" and ");
  if (!notch) return [];
  if (notch.cuts.length > 0) return crowdSteps(end, cope, notch, write, called, step);
  const { saw, hole } = notch;
  if (notch.useWrap || !saw || !hole) return wrapSteps(onto, end, cope, notch, limits, write, step);
  const { cut } = saw;
  const open = sayArcs(joinedArcs(notch.open), write);
  const steps = [
    step("saw", "Hole saw, outside Ø", {
      figure: write.size(2 * cut.radius),
      says: [
        `End ${end} onto ${onto}. ${notch.exact ? "One cut makes the seat exactly." : notch.flush ? "One cut seats all of the rim that meets the host." : "The nearest that one cut comes."}`,
      ],
    }),
    step("turn", "Turn the tube: heel at", {
      figure: write.angle(Math.abs(deg(wrapPi(cut.clock)))),
      clock: cut.clock,
      says: [
        turnSays(cut.clock, result.bar.tube.od, write),
        `Zero line: ${sayZeroLine(cope.zeroLine)}.${cut.notch === 0 ? " The saw stands square, so either side of its axis will do." : ""}`,
      ],
    }),
  ];
  if (Math.abs(cut.offset) >= 0.005)
    steps.push(
      step("offset", "Set the saw off centre", {
        figure: write.fine(Math.abs(cut.offset)),
        clock: cut.clock,
        says: [offsetSays(cut.offset, write).trim()],
      }),
    );
  const cuts = notch.steps?.steps ?? [{ notch: cut.notch, outboard: 0, shows: undefined }];
  for (const [i, c] of cuts.entries()) {
    const last = i === cuts.length - 1;
    const shows =
      last || !c.shows
        ? notch.exact
          ? "This is the final cut: it seats all round."
          : notch.flush
            ? `This is the final cut: it seats where the rim meets the host, and stays open at ${open}.`
            : `This is the final cut: unfiled, a gap of ${write.fine(saw.gap)} at ${write.angle(saw.gapAt)}.`
        : `Pushed home, the bar is ${write.fine(c.shows.standsOff)} off its seat; gap ${write.fine(c.shows.gap)} at the ${gapSide(c.shows)}, square to the host.`;
    steps.push(
      step("cut", cuts.length === 1 ? "Cut" : `Cut ${i + 1} of ${cuts.length}`, {
        key: `${i}`,
        figure: write.angle(deg(c.notch)),
        notch: c.notch,
        clock: cut.clock,
        says: [
          `Off square. Hole centre ${fromSawn(hole.fromSawn - c.outboard, end, write)}${last ? "" : `: ${write.length(c.outboard)} outboard of the final hole`}.`,
          shows,
          ...(i === 0 && !last && notch.steps ? [startSays(notch.steps, write)] : []),
        ],
      }),
    );
  }
  steps.push(
    step("fit", "Gap round the joint", {
      figure: notch.exact ? "none" : notch.flush ? "part open" : write.fine(saw.gap),
      says: [
        notch.exact
          ? "Seated on every line round the tube."
          : notch.flush
            ? "No gap where the rim meets the host."
            : `Unfiled, pushed home, the bar is ${write.fine(saw.standsOff)} off its seat; filed where it touches, at most ${write.fine(saw.most)} comes off, at ${write.angle(saw.mostAt)}.`,
        ...(notch.open.length > 0 ? [`The rim stays open at ${open} from the zero line.`] : []),
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

/** What to do first: shallow, or at the angle believed, and what to leave. */
function startSays({ ruleHolds, range, leave }: NonNullable<Notch["steps"]>, write: Write): string {
  const start = ruleHolds ? "Start shallow and deepen: it pays here." : "Starting shallow saves little here.";
  const over =
    range[1] - range[0] > 1e-9 && leave > 0.005
      ? ` If all that is known is ${write.angle(deg(range[0]))} to ${write.angle(deg(range[1]))}, leave ${write.fine(leave)} over.`
      : "";
  return start + over;
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
    step("wrap", "Use the wrap", {
      key: "print",
      says: [
        saw
          ? `Onto ${onto}: the best saw cut leaves a gap of ${write.fine(saw.gap)} at ${write.angle(saw.gapAt)}; accepted is ${write.fine(limits.gap)}.`
          : `Onto ${onto}: ${whyNoSaw(notch, write.size)}.`,
        TRUE_SIZE,
      ],
    }),
    step("wrap", "Close it round the tube", {
      key: "close",
      says: [
        `Its line 0° on the zero line (${sayZeroLine(cope.zeroLine)}), printed face out, 360 on 0.`,
        "Set its base line where the wrap's own words say.",
      ],
    }),
    step("wrap", "Scribe along its cut edge", {
      key: "scribe",
      says: ["Right round, then take the paper off: it burns."],
    }),
    step("wrap", "Cut to the line", {
      key: "cut",
      ...(saw ? { clock: saw.cut.clock } : {}),
      says: [
        ...(saw && hole
          ? roughSays(saw, hole.fromSawn, end, write)
          : ["Grinder, torch or saw blade; file to the line."]),
        ...(notch.open.length > 0
          ? [`The rim stays open at ${sayArcs(joinedArcs(notch.open), write)} from the zero line.`]
          : []),
      ],
    }),
  ];
}

const roughSays = ({ cut, most }: SawFit, centre: number, end: End, write: Write): readonly string[] => [
  `Rough out with a hole saw Ø ${write.size(2 * cut.radius)}, ${write.angle(deg(cut.notch))} off square.`,
  `Heel ${clockWords(cut.clock, write)}; hole centre ${fromSawn(centre, end, write)}.${offsetSays(cut.offset, write)}`,
  `It leaves up to ${write.fine(most)} to file.`,
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
    step("cut", `Cut for ${called(host)}`, {
      key: `crowd ${i}`,
      figure: write.angle(deg(cut.notch)),
      notch: cut.notch,
      clock: cut.clock,
      says: [
        `Off square, hole saw ${write.size(2 * cut.radius)}, heel ${clockWords(cut.clock, write)}.`,
        `Hole centre ${fromSawn(hole.fromSawn, end, write)}.${offsetSays(cut.offset, write)}`,
        ...(i === 0
          ? [
              `Zero line: ${sayZeroLine(cope.zeroLine)}. One cut for each host, in any order, makes the seat; the wrap does too.`,
              ...(open.length > 0
                ? [`The rim stays open at ${sayArcs(joinedArcs(open), write)} from the zero line.`]
                : []),
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
  const tilt = seat.kind === "plate" ? between(cope.out, neg(seat.normal)) : 0;
  if (seat.kind !== "plate" || tilt < LEVEL)
    return step("flat", "Saw square", {
      says: [`End ${end} stands flat on its plate: square to the tube all round.`],
    });
  const side = square(seat.normal, cope.out);
  const clock = Math.atan2(dot(side, cross(cope.out, cope.zero)), dot(side, cope.zero));
  return step("flat", "Saw flat at", {
    figure: write.angle(deg(tilt)),
    clock,
    says: [
      `Off square; the long point ${clockWords(clock, write)}, looking at the cut end: ${roundTube(clock, result.bar.tube.od, write)} round the tube.`,
      `From long point to short point ${write.length(cope.greatest - cope.least)}. Zero line: ${sayZeroLine(cope.zeroLine)}.`,
    ],
  });
}

function clockWords(phi: number, write: Write): string {
  const said = sayClock(phi, write);
  return said.includes("zero line") ? said : `${said} from the zero line`;
}

function turnSays(phi: number, od: number, write: Write): string {
  const said = sayClock(phi, write);
  if (said.includes("zero line")) return `${said.charAt(0).toUpperCase()}${said.slice(1)}.`;
  const way = wrapPi(phi) > 0 ? "Counter-clockwise" : "Clockwise";
  return `${way} from the zero line, looking at the cut end: ${roundTube(phi, od, write)} round the tube.`;
}

/** Where a hole's centre stands against the sawn end; a saw that starts beyond it has no tube under its middle. */
export const fromSawn = (mm: number, end: End, write: Write): string =>
  mm >= 0
    ? `${write.length(mm)} from sawn end ${end}, on the tube`
    : `${write.length(-mm)} beyond sawn end ${end}, off the tube`;

const offsetSays = (offset: number, write: Write): string =>
  Math.abs(offset) < 0.005
    ? ""
    : ` The saw's axis stands ${write.fine(Math.abs(offset))} off the tube's, toward the side 90° ${offset > 0 ? "counter-clockwise" : "clockwise"} of the heel.`;

/**
 * How end B's heel stands to end A's, as one sentence; undefined where one of them is alike all round, or has no saw
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
  if (size < 0.05) return "End B's heel stands in line with end A's.";
  if (180 - size < 0.05) return "End B's heel stands opposite end A's.";
  return `End B's heel stands ${write.angle(size)} ${angle > 0 ? "clockwise" : "counter-clockwise"} of end A's, looking from A toward B: ${roundTube(angle, result.bar.tube.od, write)} round the tube.`;
}

/** A square notch has two heels: the lesser of both turns counts. */
function squareOn(size: number, angle: number, result: BarResult, write: Write): string {
  const turn = size > 90 ? 180 - size : size;
  const clockwise = size > 90 ? angle < 0 : angle > 0;
  if (turn < 0.05) return "Both notches stand in line.";
  const round = roundTube((turn * Math.PI) / 180, result.bar.tube.od, write);
  return `End B's notch stands ${write.angle(turn)} ${clockwise ? "clockwise" : "counter-clockwise"} of end A's, looking from A toward B: ${round} round the tube.`;
}
