// Not by the room's index, which brings the PDF writer along: the page draws these too.
import { circle, line, polygon, polyline, text } from "../draw/build.ts";
import { arrowhead } from "../draw/parts/arrow.ts";
import type { Mark, Point } from "../draw/types.ts";
import { PICTURE, SEEN } from "../words/index.ts";

/** What one end of a tape is held on, for the picture. */
export type HeldOn = "point" | "outside" | "inside" | "centre" | "corner";

/** How a reading is taken, as far as its picture goes. */
export type Lies =
  | { readonly kind: "tape"; readonly ends: readonly [HeldOn, HeldOn]; readonly bead?: boolean }
  | { readonly kind: "height" | "out" | "fore"; readonly at: Exclude<HeldOn, "corner"> }
  | { readonly kind: "level" | "plumb" | "slope" | "lean along" | "lean across" };

/** A small picture of how the tape, the rule or the finder lay, and from where it is seen. */
export interface LiesPicture {
  readonly marks: readonly Mark[];
  readonly width: number;
  readonly height: number;
  readonly seen: string;
}

const W = 72;
const H = 40;
/** Radius of a tube in these pictures, and of a punch mark's ring (mm). */
const R = 8;

/** A weld bead or a tape's hook, drawn as large as can be seen (mm). */
const BEAD = 2.8;

const punch = ([x, y]: Point): Mark[] => [
  circle([x, y], 1.6, "visible", "paper"),
  line([x - 2.8, y], [x + 2.8, y], "narrow"),
  line([x, y - 2.8], [x, y + 2.8], "narrow"),
];

const tube = ([x, y]: Point): Mark[] => [
  circle([x, y], R, "visible", "shade"),
  circle([x, y], R - 1.5, "narrow", "paper"),
  line([x - 2, y], [x + 2, y], "narrow"),
  line([x, y - 2], [x, y + 2], "narrow"),
];

/** A dimension line with a head at both ends, and the tape's words on it. */
export function reads(from: Point, to: Point, words: string = PICTURE.reads): Mark[] {
  const [dx, dy] = [to[0] - from[0], to[1] - from[1]];
  const l = Math.hypot(dx, dy);
  const way: Point = [dx / l, dy / l];
  const back: Point = [-way[0], -way[1]];
  const middle: Point = [(from[0] + to[0]) / 2, (from[1] + to[1]) / 2];
  const upright = Math.abs(dy) > Math.abs(dx);
  return [
    line(from, to, "visible"),
    arrowhead(to, way, 3),
    arrowhead(from, back, 3),
    upright
      ? text([middle[0] + 2, middle[1] + 1.2], words, 2.6, { bold: true })
      : text([middle[0], middle[1] - 1.6], words, 2.6, { anchor: "middle", bold: true }),
  ];
}

/** From where on an end the tape's line starts, measured along the tape toward the other end (mm). */
const reach = (end: HeldOn): number => (end === "outside" ? -R : end === "inside" ? R : 0);

/** The reading `lies`, drawn. */
export function howItLies(lies: Lies): LiesPicture {
  const seen = (marks: readonly Mark[], from: string): LiesPicture => ({
    marks,
    width: W,
    height: H,
    seen: from,
  });
  switch (lies.kind) {
    case "tape":
      return seen(tape(lies.ends, lies.bead === true), seenTape(lies.ends));
    case "height":
      return seen([...ground(), ...upTo(lies.at)], SEEN.height);
    case "out":
      return seen([...centrePlane(), ...aside(lies.at)], SEEN.above);
    case "fore":
      return seen([...zeroLine(), ...ahead(lies.at)], SEEN.above);
    case "level":
      return seen([...punch([12, 22]), ...punch([60, 22]), ...bubble()], SEEN.both);
    case "plumb":
      return seen([...punch([36, 7]), ...punch([36, 34]), ...bob()], SEEN.level);
    case "slope":
      return seen(slope([12, 31], [60, 13], PICTURE.slope.line), SEEN.line);
    case "lean along":
      return seen(slope([62, 29], [10, 19], PICTURE.slope.along), SEEN.left);
    case "lean across":
      return seen(slope([62, 29], [10, 19], PICTURE.slope.across), SEEN.behind);
  }
}

function seenTape(ends: readonly [HeldOn, HeldOn]): string {
  if (ends.includes("corner")) return SEEN.bend;
  return ends.every((e) => e === "point") ? SEEN.tape : SEEN.tube;
}

function tape(ends: readonly [HeldOn, HeldOn], bead: boolean): Mark[] {
  const y = 22;
  const [a, b] = [16, 56];
  const marks: Mark[] = [];
  const at = (end: HeldOn, x: number, side: 1 | -1): void => {
    if (end === "point") marks.push(...punch([x, y]));
    else if (end === "corner") marks.push(...corner([x, y], side));
    else marks.push(...tube([x, y]));
  };
  at(ends[0], a, 1);
  at(ends[1], b, -1);
  const beaded = bead ? ends.findIndex((e) => e !== "point" && e !== "corner") : -1;
  const touch = [a + reach(ends[0]), b - reach(ends[1])] as const;
  // a bead is between the tube and the tape's mark: beyond a far side, before a near one
  const out = (i: number): number => (i === 0 ? -1 : 1) * (ends[i] === "inside" ? -1 : 1);
  const [p, q] = touch.map((x, i) => (i === beaded ? x + out(i) * BEAD : x)) as [number, number];
  // drawn above what it is held on, with a line down to it at each end, so that it is seen where it begins
  const over = ends.some((e) => e === "outside" || e === "centre" || e === "inside") ? y - R - 5 : y - 6;
  marks.push(line([p, y], [p, over - 1], "dimension"), line([q, y], [q, over - 1], "dimension"));
  marks.push(...reads([p, over], [q, over]));
  const bare = touch[beaded];
  if (bare !== undefined) {
    const x = bare + (out(beaded) * BEAD) / 2;
    marks.push(circle([x, y], BEAD / 2, "visible", "ink"));
    marks.push(
      text([x + out(beaded) * 2, y + 4.6], PICTURE.bead, 2.2, { anchor: out(beaded) > 0 ? "start" : "end" }),
    );
  }
  marks.push(text([a, H - 2], PICTURE.held[ends[0]], 2.4, { anchor: "middle" }));
  marks.push(text([b, H - 2], PICTURE.held[ends[1]], 2.4, { anchor: "middle" }));
  return marks;
}

/** A bend, its outer lines run on to where they meet, at `p`; the bar on the side away from the tape's run. */
function corner([x, y]: Point, side: 1 | -1): Mark[] {
  const w = 5;
  const s = -side;
  const arc = (r: number): Point[] =>
    [0, 15, 30, 45, 60, 75, 90].map((d) => {
      const t = (d * Math.PI) / 180;
      return [x + s * (11 - r * Math.cos(t)), y + 11 - r * Math.sin(t)];
    });
  return [
    polyline([[x, y + 12], ...arc(11), [x + s * 16, y]], "visible"),
    polyline([[x + s * w, y + 12], ...arc(11 - w), [x + s * 16, y + w]], "visible"),
    polyline(
      [
        [x, y + 11],
        [x, y],
        [x + s * 11, y],
      ],
      "hidden",
    ),
    circle([x, y], 0.8, undefined, "ink"),
  ];
}

const floorY = 35;
function ground(): Mark[] {
  const hatch = Array.from({ length: 12 }, (_, i): Mark => {
    const x = 12 + 4 * i;
    return line([x, floorY], [x - 3, floorY + 3], "hatch");
  });
  return [line([8, floorY], [64, floorY], "visible"), ...hatch];
}

function upTo(at: Exclude<HeldOn, "corner">): Mark[] {
  const c: Point = [46, 14];
  const top = at === "outside" ? c[1] - R : at === "inside" ? c[1] + R : c[1];
  const x = 22;
  return [
    ...(at === "point" ? punch(c) : tube(c)),
    line([c[0], top], [x - 2, top], "dimension"),
    ...reads([x, floorY], [x, top]),
  ];
}

const centrePlane = (): Mark[] => [
  line([60, 3], [60, 37], "centre"),
  text([58.5, 37], PICTURE.centrePlane, 2.2, { anchor: "end" }),
];

function aside(at: Exclude<HeldOn, "corner">): Mark[] {
  const c: Point = [18, 15];
  const x = at === "outside" ? c[0] - R : at === "inside" ? c[0] + R : c[0];
  const y = 29;
  return [
    ...(at === "point" ? punch(c) : tube(c)),
    line([x, c[1]], [x, y + 2], "dimension"),
    ...reads([60, y], [x, y]),
  ];
}

const zeroLine = (): Mark[] => [
  line([8, floorY], [64, floorY], "centre"),
  text([64, floorY - 1.5], PICTURE.zero, 2.2, { anchor: "end" }),
];

function ahead(at: Exclude<HeldOn, "corner">): Mark[] {
  const c: Point = [46, 14];
  const y = at === "outside" ? c[1] - R : at === "inside" ? c[1] + R : c[1];
  const x = 20;
  return [
    ...(at === "point" ? punch(c) : tube(c)),
    line([c[0], y], [x - 2, y], "dimension"),
    ...reads([x, floorY], [x, y]),
  ];
}

const bubble = (): Mark[] => [
  polygon(
    [
      [20, 14],
      [52, 14],
      [52, 19],
      [20, 19],
    ],
    "visible",
    "paper",
  ),
  polygon(
    [
      [31, 15.2],
      [41, 15.2],
      [41, 17.8],
      [31, 17.8],
    ],
    "narrow",
    "shade",
  ),
  circle([36, 16.5], 1, "narrow", "paper"),
  line([12, 22], [60, 22], "construction"),
  text([36, 10.5], PICTURE.level, 2.6, { anchor: "middle", bold: true }),
];

const bob = (): Mark[] => [
  line([36, 7], [36, 26], "visible"),
  polygon(
    [
      [34.4, 26],
      [37.6, 26],
      [36, 32],
    ],
    "visible",
    "shade",
  ),
  text([40, 20], PICTURE.plumb, 2.6, { bold: true }),
];

/** A line that rises from `from` to `to`, and the level that it is read from. */
function slope(from: Point, to: Point, [low, high]: readonly [string, string]): Mark[] {
  const s = Math.sign(to[0] - from[0]);
  const level: Point = [to[0], from[1]];
  const r = 30;
  const rise = Math.atan2(from[1] - to[1], Math.abs(to[0] - from[0]));
  const onRound = (t: number): Point => [
    from[0] + s * r * Math.cos(t * rise),
    from[1] - r * Math.sin(t * rise),
  ];
  const end = onRound(1);
  const arc = [...[0, 0.25, 0.5, 0.75].map(onRound), end];
  const name = (p: Point, word: string, dy: number): Mark =>
    text([p[0], p[1] + dy], word, 2.4, { anchor: "middle" });
  return [
    line(from, level, "centre"),
    line(from, to, "visible"),
    ...punch(from),
    ...punch(to),
    polyline(arc, "dimension"),
    arrowhead(end, [-s * Math.sin(rise), -Math.cos(rise)], 2.6),
    text([from[0] + s * (r + 3), from[1] - 3], PICTURE.reads, 2.6, {
      anchor: s > 0 ? "start" : "end",
      bold: true,
    }),
    name(from, low, 6),
    name(to, high, -4.5),
  ];
}
