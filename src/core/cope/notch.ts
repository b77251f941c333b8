// biome-ignore-all lint/style/noNonNullAssertion: i runs over curves of LINES entries, as many as ROUND has.
import { degrees, type Finding, mm, text } from "../findings/index.ts";
import type { End } from "../job/types.ts";
import type { ResolvedBar } from "../layout/types.ts";
import { deg } from "../numeric/index.ts";
import type { Vec } from "../space/index.ts";
import { bestCut, EXACT, exactFit, matches, type Notcher } from "./best.ts";
import type { CopeResult } from "./curve.ts";
import { nearest } from "./host.ts";
import type { Joint } from "./joint.ts";
import { LINES } from "./round.ts";
import { cutLines, cutOnto, ROUND, type SawCut, type SawFit, type Settled, type Wall } from "./saw.ts";
import { squareness, type TrueSeat, withGaps } from "./set-up.ts";
import { type Believed, type StepPlan, stepsToward } from "./steps.ts";
import type { Cope } from "./types.ts";

/** What the shop accepts and has (mm, radians). */
export interface NotchSettings extends Notcher {
  /** Beyond this greatest gap the card says to use the wrap. */
  readonly wrapBeyond: number;
  readonly believed?: Believed;
}

/** Where the hole's centre stands on the tube (mm). */
export interface HoleCentre {
  /** Beyond the long point (outward, into the waste); negative: short of it. */
  readonly beyondLong: number;
  /** From the end of the nearest bend, along the straight; absent on a bar without bends. */
  readonly fromBend?: number;
  /** In from the square-sawn end of the blank with its trim; negative: off the tube. */
  readonly fromSawn: number;
}

/** What the notcher needs for one end that lands on bars. */
export interface Notch {
  /** The best single cut and what it leaves; absent where no saw cut comes nearer than the tube's own diameter. */
  readonly saw?: SawFit;
  /** The cut leaves nothing on any line that meets the host. */
  readonly flush: boolean;
  /** Flush, and the whole rim meets its hosts: nothing stays open. */
  readonly exact: boolean;
  /** Arcs of the rim that stay open whatever the cut: they miss, or meet only the host's extension (degrees, as `misses`). */
  readonly open: Cope["misses"];
  readonly hole?: HoleCentre;
  /** Greatest gap is beyond what the shop accepts, or there is no saw cut: use the wrap. */
  readonly useWrap: boolean;
  /** A crowded end onto straight hosts: one cut for each host, in the hosts' order, which together are the curve. */
  readonly cuts: readonly { readonly host: string; readonly cut: SawCut; readonly hole: HoleCentre }[];
  /** Steps toward the final angle of `saw`; absent where the bar is bent in its joint, for its wall lines are not straight. */
  readonly steps?: StepPlan;
  readonly findings: readonly Finding[];
}

/**
 * Saw setting, hole centre, gap and steps for one end (nothing for a plate or a square end: they are sawn flat).
 * A mirrored bar is searched as its original is, and the answer mirrored, so that twins get one setting. A cut that
 * leaves more than the tube's own diameter, in metal, gap or stand-off, means nothing: there is no saw cut then.
 */
export function notchOf(
  bar: ResolvedBar,
  end: End,
  made: CopeResult,
  settings: NotchSettings,
): Notch | undefined {
  const { cope, joint } = made;
  if (cope.kind !== "on" || !joint) return undefined;
  const walls = wallsOf(cope, joint);
  const settled = walls.some(({ back }) => !back.every(Number.isNaN))
    ? cope.bentInJoint
      ? bentCut(joint, settings)
      : searched(walls, joint, settings, bar.mirrorOf !== undefined)
    : undefined;
  const flush = settled !== undefined && settled.most < EXACT && settled.standsOff < EXACT;
  const seat = trueSeat(cope, joint, flush ? settled.cut : undefined);
  const fit = settled && withGaps(settled, seat, cope.outer);
  const saw = fit && Math.max(fit.most, fit.gap, fit.standsOff) <= bar.tube.od ? fit : undefined;
  const hole = (cut: SawCut): HoleCentre => holeCentre(bar, end, cope.least, cut);
  const open = openArcs(cope);
  return {
    ...(saw ? { saw, hole: hole(saw.cut) } : {}),
    ...(saw && !cope.bentInJoint ? { steps: stepsToward(saw, seat, settings.believed) } : {}),
    flush,
    exact: flush && open.length === 0,
    open,
    useWrap: !saw || saw.gap > settings.wrapBeyond,
    cuts: crowdCuts(cope, joint, walls, settings).map((c) => ({ ...c, hole: hole(c.cut) })),
    findings: notchFindings(bar, end, saw, joint, settings),
  };
}

/** Arcs that stay open whatever the cut: those that miss, and those that meet only what the host does not have. */
function openArcs(cope: Cope): Cope["misses"] {
  return [...cope.misses, ...cope.beyondHost].sort(([a], [b]) => a - b);
}

function wallsOf(cope: Cope, { solids }: Joint): Wall[] {
  const clear: TrueSeat["clear"] = (x, y, z) => nearest(solids, x, y, z);
  const wall = (rho: number, back: Float64Array): Wall => ({
    rho,
    back,
    square: back.map((b, i) => squareness(clear, rho * ROUND[i]![0], rho * ROUND[i]![1], b)),
  });
  return [wall(cope.outerRadius, cope.outer), wall(cope.boreRadius, cope.bore)];
}

/** The joint as cuts are set up in it; where a cut follows it exactly, that cut is its shape. */
function trueSeat(cope: Cope, joint: Joint, exact: SawCut | undefined): TrueSeat {
  return {
    radii: [cope.outerRadius, cope.boreRadius],
    back: exact ? cutLines(exact) : joint.back,
    clear: (x, y, z) => nearest(joint.solids, x, y, z),
    feathers: !exact,
  };
}

/** One cut for each of several straight hosts, where the notcher can make them all and together they are the curve. */
function crowdCuts(
  cope: Cope,
  joint: Joint,
  walls: readonly Wall[],
  settings: NotchSettings,
): readonly { readonly host: string; readonly cut: SawCut }[] {
  if (joint.hosts.length < 2 || cope.bentInJoint || !joint.hosts.every((h) => h.straight)) return [];
  const cuts = joint.hosts.map((h) => ({ host: h.id, cut: cutOnto(h) }));
  const canMake = cuts.every(
    ({ cut }) => isAtHand(cut.radius, settings) && cut.notch <= settings.steepest + 1e-9,
  );
  const lines = cuts.map(({ cut }) => cutLines(cut));
  const together = (rho: number, c: number, s: number): number =>
    lines.reduce((most, at) => {
      const back = at(rho, c, s);
      return Number.isNaN(back) || back < most ? most : back;
    }, -Infinity);
  return canMake && matches(together, walls) ? cuts : [];
}

/** Whether the shop has this saw; a shop that lists none is taken to have any. */
const isAtHand = (radius: number, { saws }: Pick<NotchSettings, "saws">): boolean =>
  saws.length === 0 || saws.some((r) => Math.abs(r - radius) < 1e-9);

function searched(
  walls: readonly Wall[],
  joint: Joint,
  settings: NotchSettings,
  mirror: boolean,
): Settled | undefined {
  if (!mirror) return bestCut(joint.hosts, walls, settings);
  const flip = (v: Vec): Vec => [v[0], -v[1], v[2]];
  const hosts = joint.hosts.map((h) => ({ ...h, dir: flip(h.dir), at: flip(h.at) }));
  const turned = walls.map((w) => ({ ...w, back: overTurned(w.back), square: overTurned(w.square) }));
  const fit = bestCut(hosts, turned, settings);
  if (!fit) return undefined;
  return {
    ...fit,
    cut: { ...fit.cut, clock: -fit.cut.clock, offset: -fit.cut.offset },
    mostAt: (LINES - fit.mostAt) % LINES,
  };
}

/** A curve round the tube as its mirror image: φ becomes −φ. */
const overTurned = (curve: Float64Array): Float64Array => curve.map((_, i) => curve[(LINES - i) % LINES]!);

/**
 * A bar that is bent within its joint: onto one straight host the saw set on the host's own axis still makes the seat,
 * whatever the tube does behind it. No other cut is searched there: the card sends the bar to the wrap.
 */
function bentCut(joint: Joint, settings: NotchSettings): Settled | undefined {
  const [host] = joint.hosts;
  if (!host || joint.hosts.length > 1 || !host.straight) return undefined;
  const cut = cutOnto(host);
  if (!isAtHand(host.radius, settings) || cut.notch > settings.steepest) return undefined;
  return exactFit(cut);
}

function holeCentre(bar: ResolvedBar, end: End, least: number, cut: SawCut): HoleCentre {
  const { bends, length } = bar.centreline;
  const bend = end === "A" ? bends[0] : bends[bends.length - 1];
  const toLanding = bend && (end === "A" ? bend.start : length - bend.end);
  const beyondLong = least - cut.centre;
  return {
    beyondLong,
    ...(toLanding === undefined ? {} : { fromBend: toLanding - cut.centre }),
    fromSawn: bar.trim[end] - beyondLong,
  };
}

function notchFindings(
  bar: ResolvedBar,
  end: End,
  saw: SawFit | undefined,
  { hosts }: Joint,
  settings: NotchSettings,
): Finding[] {
  const findings: Finding[] = [];
  const place = `bars.${bar.id}`;
  const add = (code: Finding["code"], values: Finding["values"]): void => {
    findings.push({ code, place, bar: bar.id, values: { end: text(end), ...values } });
  };
  const od = mm(bar.tube.od);
  const [host] = hosts;
  const off = host ? Math.atan2(Math.abs(host.dir[2]), Math.hypot(host.dir[0], host.dir[1])) : 0;
  if (off > settings.steepest + 1e-9)
    add("notch-steep", { angle: degrees(deg(off)), steepest: degrees(deg(settings.steepest)) });
  if (!saw) {
    if (host && !isAtHand(host.radius, settings)) add("notch-no-saw", { od, missing: mm(2 * host.radius) });
    else add("notch-no-cut", { od });
  } else if (saw.gap > settings.wrapBeyond)
    add("notch-gap", { gap: mm(saw.gap), at: degrees(saw.gapAt), accepted: mm(settings.wrapBeyond) });
  return findings;
}
