// Not by the room's index: that one draws whole cards and brings the PDF writer, which no station needs at once.
import { roundTube, sayClock, sayZeroLine } from "../../cards/say.ts";
import { type Cope, carriedAngle, type Notch, squareDirection } from "../../core/cope/index.ts";
import type { End } from "../../core/job/index.ts";
import { deg, wrapPi } from "../../core/numeric/index.ts";
import { between, cross, dot, neg, square } from "../../core/space/index.ts";
import type { Step } from "../../words/index.ts";
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
  const step = (
    kind: NotcherStep["kind"],
    does: string,
    more: Partial<NotcherStep> & Pick<NotcherStep, "says">,
  ): NotcherStep => ({
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
  const steps: NotcherStep[] = [];
  const saw = notch?.saw;
  if (!notch || notch.useWrap || !saw)
    steps.push(
      step("wrap", "Use the wrap", {
        says: [
          saw
            ? `Onto ${onto}: the best saw cut leaves a gap of ${write.fine(saw.gap)} at ${write.angle(saw.gapAt)}; accepted is ${write.fine(limits.gap)}.`
            : `Onto ${onto}: no saw at hand makes this seat without taking metal that the joint needs.`,
          "Print it, close it round the tube on its zero line, scribe along the cut edge.",
        ],
      }),
    );
  for (const [i, { host, cut, hole }] of (notch?.cuts ?? []).entries())
    steps.push(
      step("cut", `Cut for ${called(host)}`, {
        key: `crowd ${i}`,
        figure: write.angle(deg(cut.notch)),
        notch: cut.notch,
        clock: cut.clock,
        says: [
          `Off square, hole saw ${write.size(2 * cut.radius)}, heel ${clockWords(cut.clock, write)}.`,
          `Hole centre ${fromSawn(hole.fromSawn, end, write)}.${offsetSays(cut.offset, write)}`,
        ],
      }),
    );
  if (!saw || !notch?.hole || !notch.steps || notch.cuts.length > 0)
    return withZero(steps, cope, result, write);
  const { cut } = saw;
  steps.push(
    step("saw", "Hole saw, outside Ø", {
      figure: write.size(2 * cut.radius),
      says: [
        `End ${end} onto ${onto}. ${notch.exact ? "One cut makes the seat exactly." : "The nearest that one cut comes."}`,
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
  );
  if (Math.abs(cut.offset) >= 0.005)
    steps.push(
      step("offset", "Set the saw off centre", {
        figure: write.fine(Math.abs(cut.offset)),
        clock: cut.clock,
        says: [offsetSays(cut.offset, write).trim()],
      }),
    );
  const { steps: cuts, leave, range, ruleHolds } = notch.steps;
  for (const [i, c] of cuts.entries()) {
    const last = i === cuts.length - 1;
    const shows = last
      ? notch.exact
        ? "This is the final cut: it seats all round."
        : `This is the final cut: unfiled, a gap of ${write.fine(saw.gap)} at ${write.angle(saw.gapAt)}.`
      : `It then stands off ${write.fine(c.shows.standsOff)}, with a gap of ${write.fine(c.shows.gap)} at the ${openAt(c.shows.gapAt)}.`;
    steps.push(
      step("cut", cuts.length === 1 ? "Cut" : `Cut ${i + 1} of ${cuts.length}`, {
        key: `${i}`,
        figure: write.angle(deg(c.notch)),
        notch: c.notch,
        clock: cut.clock,
        says: [
          `Off square. Hole centre ${fromSawn(notch.hole.fromSawn - c.outboard, end, write)}.`,
          shows,
          ...(i === 0 && !last
            ? [
                `${ruleHolds ? "Start shallow and deepen: it pays here." : "Starting shallow saves little here."}${range[1] - range[0] > 1e-9 && leave > 0.005 ? ` If all that is known is ${write.angle(deg(range[0]))} to ${write.angle(deg(range[1]))}, leave ${write.fine(leave)} over.` : ""}`,
              ]
            : []),
        ],
      }),
    );
  }
  steps.push(
    step("fit", "Gap round the joint", {
      figure: notch.exact ? "none" : write.fine(saw.gap),
      says: [
        notch.exact
          ? "Seated on every line round the tube that touches."
          : `Unfiled it stands off ${write.fine(saw.standsOff)}; filed where it touches, at most ${write.fine(saw.most)} comes off, at ${write.angle(saw.mostAt)}.`,
        ...(cope.misses.length > 0 ? ["Part of the rim passes the host by and stays open there."] : []),
      ],
    }),
  );
  return steps;
}

function withoutKey<T extends { readonly key?: string }>(more: T): Omit<T, "key"> {
  const { key: _, ...rest } = more;
  return rest;
}

function withZero(
  steps: NotcherStep[],
  cope: Cope,
  _result: BarResult,
  _write: Write,
): readonly NotcherStep[] {
  const zero = `Zero line: ${sayZeroLine(cope.zeroLine)}.`;
  return steps.map((s, i) => (i === 0 ? { ...s, says: [...s.says, zero] } : s));
}

/** A plate leans less off square than this: no clock needed (radians). */
const LEVEL = (0.01 * Math.PI) / 180;

function flat(
  result: BarResult,
  end: End,
  write: Write,
  step: (
    kind: NotcherStep["kind"],
    does: string,
    more: Pick<NotcherStep, "says"> & Partial<NotcherStep>,
  ) => NotcherStep,
): NotcherStep {
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

const openAt = (degrees: number): string => {
  const off = Math.abs(deg(wrapPi((degrees * Math.PI) / 180)));
  return off < 45 ? "heel" : off > 135 ? "toe" : "flank";
};

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
