import { type Centreline, placeAt } from "../../src/core/bar/index.ts";
import type { Plan } from "../../src/core/plan/index.ts";

/**
 * Which bars of a job overlap, by sampling: places all over each tube's outside, each held against every other tube as
 * a row of short straights. Shares nothing with the fit but the bars' middle lines and seats; knows no cope: a bar's end
 * is what is outside its hosts, and a joint is the unbroken stretch of sections from the end that reach into its host.
 * Slow.
 */
type P = readonly [number, number, number];
interface Tube {
  readonly id: string;
  readonly r: number;
  readonly line: Centreline;
  readonly places: readonly { readonly at: P; readonly s: number }[];
  readonly hosts: Readonly<Record<"A" | "B", readonly string[]>>;
  readonly plates: Readonly<Partial<Record<"A" | "B", { readonly at: P; readonly normal: P }>>>;
}

const far = (a: P, b: P): number => Math.hypot(a[0] - b[0], a[1] - b[1], a[2] - b[2]);

/** Distance from a row of straights and the station of its nearest place; its ends run on by `on`. */
function nearest({ places }: Tube, q: P, on = 0): { readonly d: number; readonly s: number } {
  let best = { d: Infinity, s: 0 };
  for (let i = 0; i + 1 < places.length; i++) {
    const [a, b] = [places[i]!, places[i + 1]!];
    const u = [b.at[0] - a.at[0], b.at[1] - a.at[1], b.at[2] - a.at[2]] as const;
    const l = Math.hypot(...u);
    const t = ((q[0] - a.at[0]) * u[0] + (q[1] - a.at[1]) * u[1] + (q[2] - a.at[2]) * u[2]) / (l * l);
    const lo = i === 0 ? -on / l : 0;
    const hi = i + 2 === places.length ? 1 + on / l : 1;
    const k = Math.min(hi, Math.max(lo, t));
    const d = far(q, [a.at[0] + k * u[0], a.at[1] + k * u[1], a.at[2] + k * u[2]]);
    if (d < best.d) best = { d, s: a.s + k * l };
  }
  return best;
}

function tubesOf(plan: Plan): readonly Tube[] {
  return plan.bars.map(({ id, bar }) => {
    const line = bar.centreline;
    const stations = line.pieces.flatMap((p) => {
      const n = p.kind === "arc" ? Math.ceil((p.angle * 360) / Math.PI) : 1;
      return Array.from({ length: n }, (_, i) => p.s0 + (p.length * i) / n);
    });
    const all = [...new Set([...stations, line.length])];
    const end = (e: "A" | "B") => (bar.seat[e].kind === "on" ? bar.seat[e].hosts : []);
    const plate = (e: "A" | "B") => {
      const seat = bar.seat[e];
      return seat.kind === "plate" ? { [e]: { at: seat.at as P, normal: seat.normal as P } } : {};
    };
    return {
      id,
      r: bar.tube.od / 2,
      line,
      places: all.map((s) => ({ s, at: placeAt(line, s).at as P })),
      hosts: { A: end("A"), B: end("B") },
      plates: { ...plate("A"), ...plate("B") },
    };
  });
}

/** A ring of places round a tube at a station. */
function ring({ line, r: outside }: Tube, s: number, n: number, share = 1): readonly P[] {
  const r = share * outside;
  const { at, dir } = placeAt(line, s);
  const aside: P = Math.abs(dir[2]) < 0.9 ? [-dir[1], dir[0], 0] : [0, -dir[2], dir[1]];
  const size = Math.hypot(...aside);
  const e = aside.map((v) => v / size) as unknown as P;
  const f: P = [dir[1] * e[2] - dir[2] * e[1], dir[2] * e[0] - dir[0] * e[2], dir[0] * e[1] - dir[1] * e[0]];
  return Array.from({ length: n }, (_, i): P => {
    const [c, d] = [r * Math.cos((2 * Math.PI * i) / n), r * Math.sin((2 * Math.PI * i) / n)];
    return [0, 1, 2].map((k) => at[k]! + c * e[k]! + d * f[k]!) as unknown as P;
  });
}

/** How far each joint runs in from its end (mm): while some of the ring is in a host. */
function jointsOf(tube: Tube, byId: ReadonlyMap<string, Tube>): Readonly<Record<"A" | "B", number>> {
  const of = (end: "A" | "B"): number => {
    const [first] = tube.hosts[end];
    const host = byId.get(first ?? "");
    if (!host) return 0;
    for (let b = 0; b < tube.line.length; b += 0.5) {
      const s = end === "A" ? b : tube.line.length - b;
      const disc = [1, 0.8, 0.6, 0.4, 0.2, 0].flatMap((share) => ring(tube, s, share === 1 ? 90 : 24, share));
      if (!disc.some((q) => nearest(host, q, 300).d < host.r)) return b;
    }
    return tube.line.length;
  };
  return { A: of("A"), B: of("B") };
}

/** Pairs of bars of which a place of one is more than `deep` inside the metal of the other, as "a b", with how deep. */
export function overlapsOf(plan: Plan, deep: number): ReadonlyMap<string, number> {
  const tubes = tubesOf(plan);
  const byId = new Map(tubes.map((t) => [t.id, t]));
  const joints = new Map(tubes.map((t) => [t.id, jointsOf(t, byId)]));
  /** Whether a place by a tube's end is in what that end is cut to. */
  const isCutOff = (t: Tube, q: P, s: number): boolean =>
    (["A", "B"] as const).some((end) => {
      const plate = t.plates[end];
      const back = end === "A" ? s : t.line.length - s;
      if (plate && back < 4 * t.r)
        return [0, 1, 2].reduce((sum, k) => sum + (q[k]! - plate.at[k]!) * plate.normal[k]!, 0) < 1e-3;
      if (back > joints.get(t.id)![end] + 1) return false;
      return t.hosts[end].some((id) => nearest(byId.get(id)!, q, 300).d < byId.get(id)!.r + 0.01);
    });
  const out = new Map<string, number>();
  for (const p of tubes)
    for (const x of tubes) {
      if (p === x) continue;
      for (let s = 0; s <= p.line.length; s += 0.5) {
        const c = placeAt(p.line, s).at as P;
        const room = nearest(x, c).d - p.r - x.r;
        if (room > -deep) {
          s += Math.max(0, room / 2);
          continue;
        }
        for (const q of ring(p, s, 120)) {
          const got = nearest(x, q);
          const by = x.r - got.d;
          if (by <= deep || isCutOff(p, q, s) || isCutOff(x, q, got.s)) continue;
          const key = [p.id, x.id].sort().join(" ");
          out.set(key, Math.max(out.get(key) ?? 0, by));
        }
      }
    }
  return out;
}
