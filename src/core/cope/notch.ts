import { degrees, type Finding, mm, text } from "../findings/index.ts";
import type { End } from "../job/types.ts";
import type { ResolvedBar } from "../layout/types.ts";
import { deg } from "../numeric/index.ts";
import type { Vec } from "../space/index.ts";
import { bestCut, EXACT, exactFit, type Notcher } from "./best.ts";
import { type CopeResult, LINES } from "./curve.ts";
import { nearest } from "./host.ts";
import type { Joint } from "./joint.ts";
import { cutOnto, ROUND, type SawCut, type SawFit, type Wall } from "./saw.ts";
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
  /** The best single cut and what it leaves; absent where no saw at hand can make one. */
  readonly saw?: SawFit;
  readonly exact: boolean;
  readonly hole?: HoleCentre;
  /** Greatest gap is beyond what the shop accepts, or there is no saw cut: use the wrap. */
  readonly useWrap: boolean;
  /** A crowded end onto straight hosts: one exact cut for each host, in the hosts' order. */
  readonly cuts: readonly { readonly host: string; readonly cut: SawCut; readonly hole: HoleCentre }[];
  /** Steps toward the final angle of `saw`. */
  readonly steps?: StepPlan;
  readonly findings: readonly Finding[];
}

/**
 * Saw setting, hole centre, gap and steps for one end (nothing for a plate or a square end: they are sawn flat).
 * A mirrored bar is searched as its original is, and the answer mirrored, so that twins get one setting.
 */
export function notchOf(
  bar: ResolvedBar,
  end: End,
  made: CopeResult,
  settings: NotchSettings,
): Notch | undefined {
  const { cope, joint } = made;
  if (cope.kind !== "on" || !joint) return undefined;
  const saw = cope.bentInJoint
    ? bentCut(joint, settings)
    : searched(cope, joint, settings, bar.mirrorOf !== undefined);
  const hole = (cut: SawCut): HoleCentre => holeCentre(bar, end, cope.least, cut);
  const crowd = joint.hosts.length > 1 && !cope.bentInJoint && joint.hosts.every((h) => h.straight);
  // a host that the bar runs along crosses it nowhere: no saw makes that cut
  const cuts = (crowd ? joint.hosts : [])
    .map((h) => ({ host: h.id, cut: cutOnto(h), hole: hole(cutOnto(h)) }))
    .filter(({ cut }) => Number.isFinite(cut.centre));
  const radii = [cope.outerRadius, cope.boreRadius] as const;
  return {
    ...(saw ? { saw, hole: hole(saw.cut), steps: stepsToward(saw.cut, radii, settings.believed) } : {}),
    exact: saw !== undefined && saw.most < EXACT && saw.gap < EXACT,
    useWrap: !saw || saw.gap > settings.wrapBeyond,
    cuts,
    findings: notchFindings(bar, end, saw, joint.hosts[0], settings),
  };
}

function searched(cope: Cope, joint: Joint, settings: NotchSettings, mirror: boolean): SawFit | undefined {
  const wall = (rho: number, back: Float64Array): Wall => {
    const square = back.map((b, i) => meetsAt(joint, rho, i, b));
    return mirror ? { rho, back: overTurned(back), square: overTurned(square) } : { rho, back, square };
  };
  const walls = [wall(cope.outerRadius, cope.outer), wall(cope.boreRadius, cope.bore)];
  const flip = (v: Vec): Vec => [v[0], -v[1], v[2]];
  const hosts = mirror ? joint.hosts.map((h) => ({ ...h, dir: flip(h.dir), at: flip(h.at) })) : joint.hosts;
  const fit = bestCut(hosts, walls, settings);
  if (!fit || !mirror) return fit;
  const back = (phi: number): number => (LINES - phi) % LINES;
  return {
    ...fit,
    cut: { ...fit.cut, clock: -fit.cut.clock, offset: -fit.cut.offset },
    mostAt: back(fit.mostAt),
    gaps: overTurned(fit.gaps),
    gapAt: back(fit.gapAt),
  };
}

/** A curve round the tube as its mirror image: φ becomes −φ. */
const overTurned = (curve: Float64Array): Float64Array => curve.map((_, i) => curve[(LINES - i) % LINES]!);

/** Sine of the angle at which line i meets the host's surface: how fast the clearance falls along the line there. */
function meetsAt(joint: Joint, rho: number, i: number, back: number): number {
  if (Number.isNaN(back)) return Number.NaN;
  const [c, s] = ROUND[i]!;
  const step = 1e-4;
  return Math.min(1, Math.max(1e-9, nearest(joint.pieces, rho * c, rho * s, -back - step) / step));
}

/**
 * A bar that is bent within its joint: onto one straight host the saw set on the host's own axis still makes the seat,
 * whatever the tube does behind it. No other cut is searched there: the card sends the bar to the wrap.
 */
function bentCut(joint: Joint, settings: NotchSettings): SawFit | undefined {
  const [host] = joint.hosts;
  if (!host || joint.hosts.length > 1 || !host.straight) return undefined;
  const cut = cutOnto(host);
  const atHand = settings.saws.length === 0 || settings.saws.some((r) => Math.abs(r - host.radius) < 1e-9);
  if (!atHand || cut.notch > settings.steepest) return undefined;
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
  host: { readonly id: string; readonly dir: readonly [number, number, number] } | undefined,
  settings: NotchSettings,
): Finding[] {
  const findings: Finding[] = [];
  const place = `bars.${bar.id}`;
  const add = (code: Finding["code"], values: Finding["values"]): void => {
    findings.push({ code, place, bar: bar.id, values: { end: text(end), ...values } });
  };
  if (host) {
    const off = Math.atan2(Math.abs(host.dir[2]), Math.hypot(host.dir[0], host.dir[1]));
    if (off > settings.steepest + 1e-9) {
      add("notch-steep", { angle: degrees(deg(off)), steepest: degrees(deg(settings.steepest)) });
    }
  }
  if (!saw) add("notch-no-saw", { od: mm(bar.tube.od) });
  else if (saw.gap > settings.wrapBeyond) {
    add("notch-gap", { gap: mm(saw.gap), at: degrees(saw.gapAt), accepted: mm(settings.wrapBeyond) });
  }
  return findings;
}
