import type { JobOf } from "./job.ts";
import type { Laid } from "./layout.ts";
import { fromPart, type Part } from "./line.ts";
import { across, apart, flipped, go, inner, minus, outer, size, toOne, type V } from "./vec.ts";

/** Signed distance to something that an end may meet (mm). */
export type Solid = (p: V) => number;

/** A tube's outside; its end straights run on by `past`. */
export function tube(laid: Laid, past: number): Solid {
  const { parts } = laid.line;
  const last = parts.length - 1;
  const H = laid.tube.od / 2;
  return (p) => {
    let d = Infinity;
    for (let i = 0; i <= last; i++) {
      d = Math.min(d, fromPart(parts[i]!, p, i === 0 ? past : 0, i === last ? past : 0));
    }
    return d - H;
  };
}

/** The same for places within `within` of a place alone: parts farther off are left out. */
export function tubeNear(laid: Laid, past: number, centre: V, within: number): Solid {
  const { parts } = laid.line;
  const last = parts.length - 1;
  const H = laid.tube.od / 2;
  const near = parts.flatMap((part, i): [Part, number, number][] => {
    const ends = [i === 0 ? past : 0, i === last ? past : 0] as const;
    return fromPart(part, centre, ...ends) < within + 2 * H ? [[part, ...ends]] : [];
  });
  return (p) => {
    let d = within;
    for (const [part, a, b] of near) d = Math.min(d, fromPart(part, p, a, b));
    return d - H;
  };
}

/** A tube that ends where its own ends land, less what they land on. */
export function endedTube(laid: Laid, all: Map<string, Laid>): Solid {
  const whole = tube(laid, 0);
  const others = (["A", "B"] as const).flatMap((end) => {
    const seat = laid.seat[end];
    return seat.kind === "on" ? seat.hosts.map((h) => tube(all.get(h)!, 0)) : [];
  });
  return (p) => Math.max(whole(p), ...others.map((o) => -o(p)));
}

/** What is behind a plate's outline, its rectangle or a disc, as deep as it is `thick`. */
export function platePiece(
  job: JobOf,
  id: string,
  mirror: boolean,
  at: V,
  normal: V,
  od: number,
  tilt: number,
  thick = Infinity,
): Solid {
  const { size: sizes, along } = job.plates[id]!;
  const deep = (h: number): number => Math.max(h, -thick - h);
  if (sizes && along) {
    const a = toOne(across(mirror ? flipped(along) : along, normal));
    const b = outer(normal, a);
    return (p) => {
      const v = minus(p, at);
      const q = [
        Math.abs(inner(v, a)) - sizes[0] / 2,
        Math.abs(inner(v, b)) - sizes[1] / 2,
        deep(inner(v, normal)),
      ];
      return box(q);
    };
  }
  const disc = sizes ? Math.hypot(...sizes) / 2 : (1.5 * od) / Math.cos(tilt);
  return (p) => {
    const v = minus(p, at);
    const h = inner(v, normal);
    return box([size(go(v, normal, -h)) - disc, deep(h)]);
  };
}

const box = (q: number[]): number =>
  Math.min(0, Math.max(...q)) + Math.hypot(...q.map((x) => Math.max(0, x)));

/** The plates of a known size that bars stand on, as solids; the mirror image of one goes by the plate listed there. */
export function slabsOf(job: JobOf, bars: Laid[]): { id: string; solid: Solid }[] {
  const found = new Map<string, Solid>();
  for (const laid of bars)
    for (const seat of [laid.seat.A, laid.seat.B]) {
      if (seat.kind !== "plate") continue;
      const isHere = (id: string): boolean =>
        apart(job.plates[id]!.at, seat.at) < 0.01 && inner(job.plates[id]!.normal, seat.normal) > 0.999;
      const listed = [seat.plate, ...Object.keys(job.plates)].find(isHere);
      const plate = job.plates[listed ?? seat.plate]!;
      const id = listed ?? `${seat.plate}, other side`;
      if (!plate.size || found.has(id)) continue;
      found.set(
        id,
        platePiece(
          job,
          listed ?? seat.plate,
          listed === undefined,
          seat.at,
          seat.normal,
          0,
          0,
          plate.thickness,
        ),
      );
    }
  return [...found].map(([id, solid]) => ({ id, solid }));
}
