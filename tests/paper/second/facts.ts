import * as bender from "./bender.ts";
import { type ClashOf, clashesOf } from "./clash.ts";
import { type CopeOf, copeOf } from "./cope.ts";
import {
  type CutOf,
  cutOn,
  type FitOf,
  leastLeft,
  type StepsOf,
  seatsOnAxis,
  settled,
  stepsOf,
  type Wall,
  wallsOf,
} from "./cut.ts";
import { type End, type JobOf, jobOf, type MadeOf } from "./job.ts";
import { jointOf } from "./joint.ts";
import { type Laid, layJob } from "./layout.ts";
import { BESIDE, swingsOf } from "./swing.ts";
import { plus, times, type V } from "./vec.ts";

const DEG = 180 / Math.PI;

export interface HoleOf {
  beyond: number;
  fromSawn: number;
  fromBend?: number;
}

export interface NotchOf {
  cut?: CutOf;
  /** On the host's own axis: nothing is left. */
  onAxis: boolean;
  exact: boolean;
  fit?: FitOf;
  hole?: HoleOf;
  useWrap: boolean;
  crowd: { host: string; cut: CutOf; hole: HoleOf }[];
  /** By how much what is figured from a found cut moves within the digits in which the cut is told (mm). */
  loose: number;
  /** What is wrong with the cut that the program chose, where it had to choose. */
  doubt?: string;
  steps?: StepsOf;
}

/** A cut as the program says it chose it: what a search found cannot be found again figure for figure, but judged. */
export type Chosen = Pick<CutOf, "radius" | "notch" | "clock" | "offset">;

/** One bar by the second computation. */
export class BarFacts {
  readonly cope: Record<End, CopeOf>;
  readonly least: Record<End, number>;
  readonly net: number;
  /** As it is to be sawn by the plan, and as it is where it was sawn. */
  readonly asPlanned: number;
  readonly sawn: number;
  readonly made: MadeOf | undefined;
  /** Tube at each end beyond the plan's allowance, where nothing is done but the saw cut. */
  readonly extra: Record<End, number>;
  /** Marks of the plan. */
  readonly planned: Record<End, Map<number, number>>;
  readonly marks: Record<End, Map<number, number>>;
  readonly checks: Map<number, bender.CheckOf[]>;
  readonly turns: bender.TurnOf[];
  readonly round: bender.TurnOf | undefined;
  readonly limits: bender.LimitOf[];
  readonly order: number[];
  /** Allowance as first read, of a bar that was bent otherwise. */
  readonly placed: Partial<Record<End, number>> = {};
  readonly chosen: Partial<Record<End, Chosen>> = {};
  readonly #notches: Partial<Record<End, NotchOf>> = {};
  readonly #walls: Partial<Record<End, Wall[]>> = {};

  constructor(
    readonly job: JobOf,
    readonly laid: Laid,
    all: Map<string, Laid>,
  ) {
    const cope = (end: End): CopeOf => copeOf(jointOf(laid, end, all, job));
    this.cope = { A: cope("A"), B: cope("B") };
    this.least = { A: this.cope.A.least, B: this.cope.B.least };
    this.net = bender.netLength(laid, this.least);
    this.asPlanned = this.net + laid.trim.A + laid.trim.B;
    this.made = job.made[laid.id];
    this.sawn = this.made?.sawn?.length ?? this.asPlanned;
    this.extra = this.#extra();
    const from = (end: End): Map<number, number> =>
      new Map([...bender.marksFrom(laid, this.least, end)].map(([n, mark]) => [n, mark + this.extra[end]]));
    this.planned = {
      A: bender.marksFrom(laid, this.least, "A"),
      B: bender.marksFrom(laid, this.least, "B"),
    };
    this.marks = { A: from("A"), B: from("B") };
    const bent = laid.line.bends.length > 0;
    this.order = bender.feeding(laid, this.least).numbers;
    this.checks = bent
      ? bender.checksOf({ ...laid, trim: { A: this.allowance("A"), B: this.allowance("B") } }, this.least)
      : new Map();
    this.turns = bent ? bender.turnsOf(laid, job.turnSide) : [];
    this.round = bent ? bender.roundOf(laid, job.turnSide) : undefined;
    this.limits = [...bender.limitsOf(laid, this.least, job), ...(bent && laid.die ? this.#swings() : [])];
  }

  /** What a tube has beyond the net length is shared as the allowance is, never more at A than its allowance. */
  #extra(): Record<End, number> {
    const { trim } = this.laid;
    if (this.made?.progress !== "sawn" || this.made.notched) return { A: 0, B: 0 };
    if (Math.abs(this.sawn - this.asPlanned) < 0.05) return { A: 0, B: 0 };
    const over = this.sawn - this.net;
    const A = Math.min(trim.A, (over * trim.A) / (trim.A + trim.B));
    return { A: A - trim.A, B: over - A - trim.B };
  }

  /** Allowance at an end of the tube that there is. */
  allowance(end: End): number {
    return this.laid.trim[end] + this.extra[end];
  }

  /** Whether a step is done: of the whole bar, or the notch of one end. */
  isDone(step: "sawn" | "bent" | End): boolean {
    const { made } = this;
    if (!made) return false;
    if (step === "sawn") return true;
    if (step === "bent") return this.order.length > 0 && made.progress !== "sawn";
    return made.notched?.[step] !== undefined || !["sawn", "bent"].includes(made.progress);
  }

  #swings(): bender.LimitOf[] {
    const { laid, job } = this;
    const [own, other] = [this.lead, this.tail].map((end) =>
      swingsOf(laid, bender.feeding(laid, this.least, end), job),
    );
    const otherReach = Math.max(...other!.map((s) => s.reach));
    return own!
      .filter((s) => s.reach > 0)
      .map(({ bend, reach }) => ({
        code: "swing",
        figures: { bend, reach, beside: BESIDE, other: otherReach },
      }));
  }

  /** What can hurt at the bender. */
  get dangers(): number {
    return this.limits.filter((l) => l.code === "floor" || l.code === "swing").length;
  }

  get lead(): End {
    return this.laid.fromEnd;
  }
  get tail(): End {
    return this.laid.fromEnd === "A" ? "B" : "A";
  }

  /** What the program chose at an end, as its table says. */
  choose(end: End, chosen: Chosen | undefined): void {
    if (chosen) this.chosen[end] = chosen;
    else delete this.chosen[end];
    delete this.#notches[end];
  }

  walls(end: End): Wall[] {
    return (this.#walls[end] ??= wallsOf(this.cope[end]));
  }

  hole(end: End, centre: number): HoleOf {
    const { bends, length } = this.laid.line;
    const bend = end === "A" ? bends[0] : bends[bends.length - 1];
    const straight = bend && (end === "A" ? bend.start : length - bend.end);
    // the cut's centre in from the landing is `centre`; the long point's is `least`
    const beyond = this.least[end] - centre;
    return {
      beyond,
      fromSawn: this.allowance(end) - beyond,
      ...(straight === undefined ? {} : { fromBend: straight - centre }),
    };
  }

  /** The notch of an end that lands on bars; nothing for a flat one. */
  notch(end: End): NotchOf | undefined {
    if (this.cope[end].joint.kind !== "on") return undefined;
    return (this.#notches[end] ??= this.#notchOf(end));
  }

  #notchOf(end: End): NotchOf {
    const cope = this.cope[end];
    const { joint, misses } = cope;
    const { saws, steepest = 80 } = this.job;
    const [host] = joint.hosts;
    const own = cutOn(host!, joint);
    const atHand = saws.length === 0 || saws.some((d) => Math.abs(d / 2 - host!.H) < 1e-9);
    const alone = joint.onto.length === 1 && seatsOnAxis(cope, host!);
    const crowd = this.#crowd(end);
    if (alone && atHand && own.notch <= steepest + 1e-9) {
      const chosen = this.chosen[end];
      // square on the host either side of it is the heel
      const other = own.notch < 1e-6 && chosen && Math.abs(turned(chosen.clock - own.clock)) > 90;
      const cut = other ? { ...own, clock: own.clock + 180, offset: -own.offset } : own;
      const exact = misses.length === 0 && !this.beyondHost(end);
      const steps = stepsOf(cut, cope, true, this.believed(end));
      return {
        cut,
        onAxis: true,
        exact,
        hole: this.hole(end, cut.centre),
        useWrap: false,
        crowd,
        loose: 0,
        steps,
      };
    }
    const chosen = this.chosen[end];
    const none: NotchOf = { onAxis: false, exact: false, useWrap: true, crowd, loose: 0 };
    if (!chosen) return cope.bentInJoint ? none : { ...none, ...doubtOfNone(cope, this, end) };
    const fit = settled({ ...chosen, centre: 0 }, this.walls(end), joint);
    if (!fit) return { ...none, doubt: "the saw said does not span the end" };
    const cut = { ...chosen, centre: fit.centre };
    const best = leastLeft(cope, this.walls(end), saws, steepest);
    const doubt =
      fit.most > best * 1.5 + 0.05
        ? { doubt: `it leaves ${fit.most.toFixed(3)} where a cut that leaves ${best.toFixed(3)} was found` }
        : {};
    return {
      cut,
      onAxis: false,
      exact: false,
      fit,
      hole: this.hole(end, fit.centre),
      useWrap: fit.gap > this.job.wrapBeyond,
      crowd,
      loose: this.#loose(end, chosen, fit),
      ...doubt,
      steps: stepsOf(cut, cope, false, this.believed(end)),
    };
  }

  /** Where a saw is hardly wider than the tube, a thousandth of offset moves a whole cut by tenths. */
  #loose(end: End, chosen: Chosen, fit: FitOf): number {
    const { joint } = this.cope[end];
    const [size, turn] = [this.job.inch ? 0.0013 : 0.0005, 0.0005];
    const moved = [
      { notch: turn },
      { notch: -turn },
      { clock: turn },
      { clock: -turn },
      { offset: size },
      { offset: -size },
    ].flatMap((by): number[] => {
      const cut = { ...chosen, centre: 0 };
      for (const [key, d] of Object.entries(by)) cut[key as "notch" | "clock" | "offset"] += d;
      const other = settled(cut, this.walls(end), joint);
      if (!other) return [];
      return (["centre", "standsOff", "most", "gap"] as const).map((k) => Math.abs(other[k] - fit[k]));
    });
    return Math.max(0, ...moved);
  }

  believed(end: End): number | undefined {
    const said = this.job.bars[this.laid.id]!.believed[end];
    return typeof said === "number" ? said : undefined;
  }

  #crowd(end: End): NotchOf["crowd"] {
    const cope = this.cope[end];
    const { joint } = cope;
    if (joint.onto.length < 2 || cope.bentInJoint) return [];
    if (!joint.hosts.every((h) => h.laid.line.bends.length === 0)) return [];
    return joint.hosts.map((h) => {
      const cut = cutOn(h, joint);
      return { host: h.id, cut, hole: this.hole(end, cut.centre) };
    });
  }

  /** Whether the landing is so near its host's end that part of the rim may meet only the host's extension. */
  beyondHost(end: End): boolean {
    const near = this.nearEnd(end);
    return near !== undefined && near.distance < near.needed - 1e-6;
  }

  nearEnd(end: End): { host: string; distance: number; needed: number } | undefined {
    const [host] = this.cope[end].joint.hosts;
    const seat = this.laid.seat[end];
    if (!host || seat.kind !== "on") return undefined;
    const distance = Math.min(seat.along, host.laid.line.length - seat.along);
    const needed = (this.laid.tube.od / 2 + host.H * Math.cos(host.gamma)) / Math.sin(host.gamma);
    return { host: host.id, distance, needed };
  }

  /** φ (degrees) of the side that stands for an end: heel of a notch, long point of a flat cut. */
  side(end: End): number | undefined {
    const { joint } = this.cope[end];
    if (joint.kind === "square" || (joint.kind === "plate" && joint.tilt < 0.01)) return undefined;
    if (joint.kind === "plate") return joint.longSide;
    return this.notch(end)?.cut?.clock ?? cutOn(joint.hosts[0]!, joint).clock;
  }

  /** Turn from A's side to B's, positive clockwise seen from A toward B. */
  ends(): number | undefined {
    const [a, b] = [this.side("A"), this.side("B")];
    if (a === undefined || b === undefined) return undefined;
    const way = (end: End, phi: number): V => {
      const { e0, e90 } = this.cope[end].joint.frame;
      return plus(times(e0, Math.cos(phi / DEG)), times(e90, Math.sin(phi / DEG)));
    };
    return bender.endsTurn(this.laid.line, way("A", a), way("B", b));
  }
}

const turned = (d: number): number => ((((d + 180) % 360) + 360) % 360) - 180;

function doubtOfNone(cope: CopeOf, bar: BarFacts, end: End): { doubt?: string } {
  const best = leastLeft(cope, bar.walls(end), bar.job.saws, bar.job.steepest ?? 80);
  return Number.isFinite(best) && best < bar.laid.tube.od / 4
    ? { doubt: `a cut that leaves ${best.toFixed(2)} was found` }
    : {};
}

/** A whole job by the second computation. */
export class Second {
  readonly job: JobOf;
  readonly laid: Map<string, Laid>;
  readonly #bars = new Map<string, BarFacts>();
  #clashes: ClashOf[] | undefined;

  constructor(path: string) {
    this.job = jobOf(path);
    this.laid = layJob(this.job);
  }

  get ids(): string[] {
    return [...this.laid.keys()];
  }

  bar(id: string): BarFacts {
    const known = this.#bars.get(id);
    if (known) return known;
    const laid = this.laid.get(id);
    if (!laid) throw new Error(`no bar is called ${id}`);
    const facts = new BarFacts(this.job, laid, this.laid);
    this.#bars.set(id, facts);
    return facts;
  }

  get clashes(): ClashOf[] {
    return (this.#clashes ??= clashesOf(
      this.job,
      this.ids.map((id) => this.bar(id)),
    ));
  }

  /** What can hurt: at the bender, and where bars want the same room; of one bar, or of all. */
  dangers(bar?: string): number {
    const bars = bar === undefined ? this.ids : [bar];
    const clashes = this.clashes.filter((c) => bar === undefined || c.bar === bar || c.other === bar);
    return bars.reduce((n, id) => n + this.bar(id).dangers, clashes.length);
  }

  twin(id: string): string | undefined {
    return (
      this.job.bars[id]!.mirrorOf ?? Object.keys(this.job.bars).find((b) => this.job.bars[b]!.mirrorOf === id)
    );
  }

  hand(id: string): string {
    const { label, line } = { label: this.job.bars[id]!.label, line: this.laid.get(id)!.line };
    if (this.twin(id) === undefined) return "";
    const said = label.match(/\b(left|right)\b/gi) ?? [];
    if (said.length === 1) return said[0]!.toLowerCase();
    const [a, b] = [line.start[1], line.finish[1]];
    if (Math.abs(a + b) / 2 < 1) return "";
    return a + b > 0 ? "left" : "right";
  }

  /** What a person calls a bar: its label, with more where another bar has it too. */
  called(id: string): string {
    if (!this.job.bars[id]) return id;
    const label = (of: string): string => this.job.bars[of]!.label;
    const same = (of: string): string[] => Object.keys(this.job.bars).filter((b) => label(b) === label(of));
    const hand = this.hand(id);
    if (same(id).length === 1) return label(id);
    const handed = hand === "" ? label(id) : `${label(id)}, ${hand}`;
    const twice = same(id).filter((b) => this.hand(b) === hand).length > 1;
    return twice ? `${handed} (bar ${this.ids.indexOf(id) + 1})` : handed;
  }

  /** The bar that a person calls so. */
  bySay(called: string): string {
    return this.ids.find((id) => this.called(id) === called) ?? "";
  }
}
