/** One line of the sources, spoilt on purpose: the paper of the job named must give it away. */
export interface Fault {
  readonly what: string;
  readonly file: string;
  readonly find: string;
  readonly put: string;
  /** A job in tests/paper/jobs. */
  readonly job: "workbench-inches" | "leaning-plates" | "unequal-dies";
}

const fault = (
  what: string,
  file: string,
  find: string,
  put: string,
  job: Fault["job"] = "unequal-dies",
): Fault => ({
  what,
  file,
  find,
  put,
  job,
});

export const FAULTS: readonly Fault[] = [
  fault(
    "notch: from the nearest bend, sign",
    "core/cope/notch.ts",
    "toLanding - cut.centre",
    "toLanding + cut.centre",
    "leaning-plates",
  ),
  fault(
    "wrap: from the sawn end without the allowance",
    "cards/wrap.ts",
    "base + s.bar.bend.trim[end]",
    "base",
    "leaning-plates",
  ),
  fault(
    "CSV: order of bending",
    "cards/csv.ts",
    'bar.fromEnd === "A" ? i + 1 : bend.bends.length - i',
    "i + 1",
  ),
  fault(
    "notch: from the sawn end, sign",
    "core/cope/notch.ts",
    "bar.trim[end] - beyondLong",
    "bar.trim[end] + beyondLong",
    "leaning-plates",
  ),
  fault(
    "notch: beyond the long point, sign",
    "core/cope/notch.ts",
    "least - cut.centre",
    "cut.centre - least",
    "leaning-plates",
  ),
  fault(
    "marks: from B without the growth",
    "core/bend/marks.ts",
    "(length - b.end) + after + mark",
    "(length - b.end) + mark",
  ),
  fault(
    "marks: without the die's mark",
    "core/bend/marks.ts",
    "over.A + b.start + before + mark",
    "over.A + b.start + before",
    "workbench-inches",
  ),
  fault("turn: the wrong way", "core/bend/turns.ts", 'phi > 0 ? "clockwise"', 'phi < 0 ? "clockwise"'),
  fault(
    "turned round: points the wrong way",
    "core/bend/turns.ts",
    "-flat(second.rotation)",
    "flat(second.rotation)",
    "workbench-inches",
  ),
  fault(
    "check: off the table to the top of the end",
    "core/bend/checks.ts",
    "best.end + r - r *",
    "best.end + r + r *",
  ),
  fault(
    "check: parallel legs centre to centre",
    "core/bend/checks.ts",
    "value: apart + feed.od",
    "value: apart",
  ),
  fault("check: the tail leg without later growth", "core/bend/feed.ts", "over[tail] + later", "over[tail]"),
  fault(
    "set angle: springback's constant, sign",
    "core/bend/springback.ts",
    "(deg(wanted) - c) / k",
    "(deg(wanted) + c) / k",
    "leaning-plates",
  ),
  fault(
    "limits: clamp told of the tail",
    "core/bend/limits.ts",
    "has: mm(bend.straight),\n          needs: mm(needs)",
    "has: mm(bend.rest),\n          needs: mm(needs)",
  ),
  fault(
    "clock: the wrong way round",
    "cards/notcher-card.ts",
    "wrapPi(phi) >= 0",
    "wrapPi(phi) < 0",
    "leaning-plates",
  ),
  fault(
    "offset: the side said the wrong way",
    "words/cards-clock.ts",
    'a > 0 ? "counter-clockwise"',
    'a < 0 ? "counter-clockwise"',
    "leaning-plates",
  ),
  fault("marked tube and strip: always from A", "cards/marked-tube.ts", "fromA ? b.mark : b.markB", "b.mark"),
  fault(
    "bender card: mark always from A",
    "cards/bender-card.ts",
    'lead === "A" ? bend.mark : bend.markB',
    "bend.mark",
  ),
  fault(
    "strip: inches counted by halves",
    "cards/mark-strip.ts",
    "inch ? k / 2 : k * 10",
    "inch ? k : k * 10",
    "workbench-inches",
  ),
  fault(
    "wrap: girth without the paper",
    "core/tube/tube.ts",
    "Math.PI * (tube.od + thickness)",
    "Math.PI * tube.od",
    "workbench-inches",
  ),
  fault(
    "wrap: the curve from the landing",
    "cards/wrap.ts",
    "WASTE + b - cope.least",
    "WASTE + b",
    "leaning-plates",
  ),
  fault(
    "wrap: face in",
    "cards/wrap.ts",
    "const x = (phi: number): number => (phi / 360) * wide;",
    "const x = (phi: number): number => (1 - phi / 360) * wide;",
    "leaning-plates",
  ),
  fault(
    "sawn length without the allowance at B",
    "cards/subject.ts",
    "bar.bend.blank + bar.bend.trim.A + bar.bend.trim.B",
    "bar.bend.blank + bar.bend.trim.A",
  ),
  fault(
    "overview: net length for length",
    "cards/overview.ts",
    "s.write.length(bar.bend.length)",
    "s.write.length(bar.bend.blank)",
  ),
  fault(
    "overview: seen mirrored",
    "cards/outline.ts",
    "FROM_LEFT: View = { right: [-1, 0, 0]",
    "FROM_LEFT: View = { right: [1, 0, 0]",
  ),
  fault(
    "CSV: offset, sign",
    "cards/csv.ts",
    "length(cut?.offset)",
    "length(cut && -cut.offset)",
    "leaning-plates",
  ),
  fault("CSV: rotation, sign", "cards/csv.ts", "angle(b.rotation)", "angle(-b.rotation)"),
  fault(
    "flat end: clock of the long point, sign",
    "cards/ends.ts",
    "Math.atan2(dot(side, frame.quarter)",
    "Math.atan2(-dot(side, frame.quarter)",
    "leaning-plates",
  ),
  fault(
    "steps: the hole inboard",
    "cards/step-table.ts",
    "hole.fromSawn - step.outboard",
    "hole.fromSawn + step.outboard",
  ),
  fault(
    "finished bar: height over the plane",
    "cards/finished-bar.ts",
    "s.write.length(rises)",
    "s.write.length(rises / 2)",
  ),
];
