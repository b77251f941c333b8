import { HANDS_AND_STRAP, isByGap, type Judged, type Packing, pastPhrase } from "../core/fit/index.ts";
import { neg, sub, type Vec } from "../core/space/index.ts";
import { sayDirection, sayPast, sayWhy } from "./fit.ts";
import { inLine, sentence } from "./text.ts";

/** What the sentences need: what bars are called, and how the shop reads lengths. */
export interface FitWords {
  readonly called: (id: string) => string;
  /** Lengths with their unit. */
  readonly length: (mm: number) => string;
  /** Gaps, springing, clearance. */
  readonly fine: (mm: number) => string;
}

/** What else than a bar may stand in the way, by the name that the fit gives it; bars are called by their label. */
export function partSays(id: string, plates: Readonly<Record<string, unknown>>): string {
  if (id === "floor") return "the floor";
  if (id === "driver") return "the driver's room";
  const plate = id.replace(/, other side$/, "");
  return Object.hasOwn(plates, plate) ? `plate ${id}` : id;
}

/** As far as a search goes; said wherever a "no" is. */
export const SEARCHED = "a search result, not a proof";
export const HONEST =
  "This is advice from geometry alone. A way shown here was followed and checked against everything in place. " +
  "A “no” is a search result unless it says that it is proved. Tacks, clamps, heat and hand force are not included.";

/** A force to two digits, as the model of the frame knows no more; past what two hands give it is no number at all. */
export function sayForce(newton: number): string {
  if (newton < 1) return "less than 1 N";
  if (newton > HANDS_AND_STRAP) return `over ${HANDS_AND_STRAP} N: more than two hands`;
  const unit = 10 ** Math.max(0, Math.floor(Math.log10(newton)) - 1);
  return `${Math.round(newton / unit) * unit} N`;
}

const LINEAR = "The force is by a linear model of the frame as it is by then, for comparison.";

/** The state in words: "goes in free", "goes in, touching 0.03 mm", "goes in sprung 0.8 mm, 40 N", "goes in with 2.9 mm of gap", "does not go in". */
export function goesIn(j: Judged, w: FitWords): string {
  if (j.goesIn === "free") return "goes in free";
  if (j.goesIn === "no") return "does not go in";
  if (j.goesIn === "unknown") return "not checked";
  if (j.touches) return `goes in, touching ${w.fine(j.touches.by)}`;
  if (isByGap(j)) return `goes in with ${w.fine(j.gap)} of gap`;
  return `goes in sprung ${w.fine(j.spring)}${j.force === undefined ? "" : `, ${sayForce(j.force)}`}`;
}

/** Which way the bar moves at the last, into its seat: "up and rearward"; empty where there is no way. */
export function lastWay({ way }: Judged): string {
  const from = way[way.length - 2];
  return from ? sayDirection(neg(shift(from.at))) : "";
}

/** From which side it comes: "from the left, from above"; read at the outer end of its way. */
export function comesFrom({ way }: Judged): string {
  const first = way[0];
  const seat = way[way.length - 1];
  if (!first || !seat) return "";
  const d = sub(first.at, seat.at);
  return inLine(
    FROM.filter(([v]) => dotUnit(v, d) > 0.4)
      .sort(([a], [b]) => dotUnit(b, d) - dotUnit(a, d))
      .map(([, words]) => words),
  );
}

const FROM: readonly (readonly [Vec, string])[] = [
  [[1, 0, 0], "from the front"],
  [[-1, 0, 0], "from the rear"],
  [[0, 1, 0], "from the left"],
  [[0, -1, 0], "from the right"],
  [[0, 0, 1], "from above"],
  [[0, 0, -1], "from below"],
];

const dotUnit = (v: Vec, d: Vec): number =>
  (v[0] * d[0] + v[1] * d[1] + v[2] * d[2]) / (Math.hypot(...d) || 1);

/** A turn alone moves nothing at the A landing; up is then as good as any. */
const shift = (v: Vec): Vec => (Math.hypot(...v) > 1e-9 ? v : [0, 0, -1]);

/** Why it does, or does not, in one sentence. `missing`: bars that it lands on and that are not in by then. */
export function goesInSays(j: Judged, missing: readonly string[], w: FitWords): string {
  if (j.goesIn === "unknown") return "It was not checked to the end.";
  if (j.goesIn !== "no") return waySays(j, w);
  if (missing.length > 0)
    return `It lands on ${inLine(missing.map(w.called))}, which ${missing.length > 1 ? "are" : "is"} not in yet.`;
  const worst = [...j.fouls].sort((a, b) => b.by - a.by)[0];
  if (worst && j.blockedBy.includes(worst.id))
    return `At its own seat it runs ${w.fine(worst.by)} into ${w.called(worst.id)}.`;
  if (j.blockedBy.length > 0) {
    const by = inLine(j.blockedBy.slice(0, 3).map(w.called));
    return `${by} ${j.blockedBy.length > 1 ? "are" : "is"} in its way.`;
  }
  if (j.joint === "locked")
    return j.proved
      ? "Held by its joints (hosts taken as rigid): it cannot be brought into its seat."
      : "Held by its joints (hosts taken as rigid), as far as the search goes.";
  return sentence(sayWhy(j.why, w.fine, w.called));
}

function waySays(j: Judged, w: FitWords): string {
  const through = j.through.length > 0 ? `through ${inLine(j.through)}` : comesFrom(j);
  const last = lastWay(j);
  const how =
    j.way.length === 2
      ? `Straight in, ${last}`
      : `In ${through}${j.way.length > 2 && last ? `, at the last ${last}` : ""}`;
  const clear =
    j.clearance === undefined || j.nearest === undefined || !Number.isFinite(j.clearance)
      ? ""
      : `; ${w.fine(j.clearance)} clear of ${w.called(j.nearest)} at the closest`;
  return [`${how}${clear}.`, ...(j.goesIn === "spring" ? [] : pastSays(j, w))].join(" ");
}

/** What it touches by hundredths, and what was there to go past. */
export const pastSays = (j: Judged, w: FitWords): readonly string[] => [
  ...(j.touches
    ? [`It touches ${w.called(j.touches.id)} by ${w.fine(j.touches.by)}: a stroke of a file.`]
    : []),
  sentence(sayPast(pastPhrase(j.past))),
];

/** The reasons beneath the sentence, each one sentence. */
export function goesInReasons(j: Judged, w: FitWords): readonly string[] {
  const out: string[] = [jointSays(j, w)];
  if (isByGap(j))
    out.push(
      `It goes in with ${w.fine(j.gap)} of gap at each joint, nothing sprung. Springing it ${w.fine(j.spring)} a side or less would take ${sayForce(j.force)}. ${LINEAR}`,
    );
  else if (j.goesIn === "spring") {
    const force =
      j.force === undefined
        ? ""
        : `; that takes ${j.force > HANDS_AND_STRAP ? sayForce(j.force) : `about ${sayForce(j.force)}`}. ${LINEAR}`;
    out.push(sentence(`Its hosts are sprung ${w.fine(j.spring)} a side, or less${force}`));
    if (j.gap !== undefined) out.push(`Or with a gap of ${w.fine(j.gap)} at each joint, nothing sprung.`);
  }
  for (const f of j.goesIn === "spring" ? j.fouls : []) out.push(sayFoul(w.called(f.id), w.fine(f.by)));
  if (j.goesIn === "unknown") return [];
  if (j.goesIn === "no") {
    if (j.met) out.push(`A way was found, but its check met ${w.called(j.met.id)} by ${w.fine(j.met.by)}.`);
    if (j.shorten)
      out.push(
        `With end ${j.shorten.end} ${w.fine(j.shorten.by)} shorter it would go in, as far as was tried.`,
      );
    out.push(j.proved ? "This is proved, with hosts taken as rigid." : `This is ${SEARCHED}.`);
  } else out.push("The way was followed from outside to the seat and checked against everything in place.");
  return out;
}

function jointSays(j: Judged, w: FitWords): string {
  if (j.joint === "slides") return "Its joints let it slide straight out.";
  if (j.joint === "open") return "One of its ends is free, or stands on a plate.";
  if (j.joint === "tips") return "Its joints let it out tipped or turned, not straight.";
  const lips = [...new Set(j.lips.map((l) => `end ${l.end} on ${w.called(l.host)}`))].slice(0, 4);
  return `Held by its joints (hosts taken as rigid)${lips.length > 0 ? `: ${inLine(lips)}` : ""}.`;
}

/** Straight-edge and packing that put a bar at its height; undefined where nothing can be laid across. */
export function packingSays(p: Packing | undefined, w: FitWords): string | undefined {
  if (!p) return undefined;
  const { A, B } = p.flat;
  const across =
    p.on.A === p.on.B ? `both sides of ${w.called(p.on.A)}` : `${w.called(p.on.A)} and ${w.called(p.on.B)}`;
  const pack = (end: "A" | "B"): string => {
    const by = p.flat[end];
    if (Math.abs(by) < 0.005) return `at ${end} the bar just touches it`;
    return by > 0
      ? `pack ${w.fine(by)} on the bar at ${end}`
      : `pack the edge up ${w.fine(-by)} off ${w.called(p.on[end])} at ${end}`;
  };
  const same = Math.abs(A - B) < 0.005 && Math.abs(A) < 0.005;
  return `Lay a straight edge across ${across}: ${same ? "the bar just touches it" : `${pack("A")}, ${pack("B")}`}.`;
}

/** What it overlaps at its seat, with what to do about it. */
export const sayFoul = (name: string, by: string): string =>
  `File ${by} off where it touches ${name} at its seat, or notch it to both.`;

/** The sheet of an order. */
export const ORDER = {
  title: "Order of fitting",
  document: (job: string): string => `Order of fitting — ${job}`,
  checked: "Checked",
  all: "all",
  some: (checked: number, not: number): string => `${checked}; ${not} not checked`,
  noWay: "No way found",
  none: "none",
  heading: "In this order; tick each bar when it is tacked",
  notChecked: "NOT CHECKED",
  goesNot: "DOES NOT GO IN",
  bar: (label: string, od: string, card: string): string => `${label} · Ø ${od} · ${card}`,
  noHosts: "Lands on no bar.",
  after: (hosts: readonly string[]): string => `After ${inLine(hosts)}, on which it lands.`,
  bodyOn: "Put it in while the body is on, roof and all: it is set by the body.",
  roofOff: "Put it in with the roof off only.",
  weldBefore: (end: string, bar: string, share: string): string =>
    `Weld end ${end} before ${bar} goes in: it closes ${share} of the ring.`,
  reach: (end: string, share: string): string => `End ${end}: a torch reaches ${share} of the ring.`,
  withGap: (gap: string): string => `Or with a gap of ${gap} at each joint, nothing sprung.`,
} as const;

/** A share of a whole, to the percent. */
