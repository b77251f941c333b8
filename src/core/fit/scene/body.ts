// biome-ignore-all lint/style/noNonNullAssertion: an opening's edge has three places at least, by the schema.
import type { Job } from "../../job/types.ts";
import { mirrored, type Vec } from "../../space/index.ts";
import { capsulesThrough } from "./capsules.ts";
import { type Gate, gateOf } from "./gate.ts";
import type { Facet, Obstacle } from "./scene.ts";
import { facet } from "./scene.ts";
import { netTriangles, sheetTriangles } from "./sheet.ts";

const facets = (polygons: readonly (readonly Vec[])[]): readonly Facet[] =>
  polygons.flatMap((p) => facet(p) ?? []);

export function driverObstacles(driver: NonNullable<Job["driver"]>): readonly Obstacle[] {
  const out: Obstacle[] = [];
  const { hip, shoulder, torsoRadius, helmet, helmetRadius } = driver;
  if (hip && shoulder && torsoRadius) {
    out.push({ id: "driver", kind: "driver", capsules: capsulesThrough([hip, shoulder], torsoRadius) });
  }
  if (helmet && helmetRadius) {
    out.push({ id: "driver's helmet", kind: "driver", capsules: capsulesThrough([helmet], helmetRadius) });
  }
  return out;
}

const otherSide = (name: string): string | undefined =>
  /left/.test(name)
    ? name.replace("left", "right")
    : /right/.test(name)
      ? name.replace("right", "left")
      : undefined;

/** A list within this of the centre plane reaches it (mm). */
const AT_CENTRE = 1;

/** Whether a list of places stands for both sides of the car (see docs/decisions/what-a-bar-goes-in-past.md). */
function isHalf(name: string, places: readonly Vec[], names: ReadonlySet<string>): boolean {
  const other = otherSide(name);
  if (other !== undefined) return !names.has(other);
  const ys = places.map((p) => p[1]);
  const [lo, hi] = [Math.min(...ys), Math.max(...ys)];
  return (
    hi - lo > AT_CENTRE &&
    Math.min(Math.abs(lo), Math.abs(hi)) <= AT_CENTRE &&
    lo * hi >= -AT_CENTRE * (hi - lo)
  );
}

/** Something of the body, and whether it comes off with the roof. */
export interface BodyPart {
  readonly obstacle: Obstacle;
  readonly roof: boolean;
}

export interface Body {
  readonly parts: readonly BodyPart[];
  /** Its openings, of both sides. */
  readonly gates: readonly Gate[];
  /** Panels whose edge or openings make no sheet, by name: they block nothing. */
  readonly unusable: readonly string[];
}

/** What the body puts in a bar's way: lines and edges of openings, skin, panels less their openings; both sides. */
export function bodyOf(body: Job["body"]): Body {
  const { lines, skin, openings = {}, panels = {} } = body;
  const roof = new Set(body.roof ?? []);
  const names = new Set([lines, skin, openings, panels].flatMap((list) => Object.keys(list)));
  const parts: BodyPart[] = [];
  const gates: Gate[] = [];
  const unusable: string[] = [];
  const add = (
    id: string,
    of: readonly Vec[],
    make: (side: (p: Vec) => Vec, id: string) => Obstacle,
  ): void => {
    parts.push({ obstacle: make((p) => p, id), roof: roof.has(id) });
    if (isHalf(id, of, names)) {
      parts.push({ obstacle: make(mirrored, otherSide(id) ?? `${id}, other side`), roof: roof.has(id) });
    }
  };
  for (const [id, line] of Object.entries(lines)) {
    if (line.length === 0) continue;
    add(id, line, (side, name) => ({ id: name, kind: "line", capsules: capsulesThrough(line.map(side), 0) }));
  }
  for (const [id, edge] of Object.entries(openings)) {
    const closed = [...edge, edge[0]!];
    add(id, edge, (side, name) => {
      const gate = gateOf(name, edge.map(side));
      if (gate) gates.push(gate);
      return { id: name, kind: "line", capsules: capsulesThrough(closed.map(side), 0) };
    });
  }
  for (const [id, net] of Object.entries(skin)) {
    const triangles = netTriangles(net);
    if (triangles.length === 0) continue;
    add(id, net, (side, name) => ({
      id: name,
      kind: "panel",
      facets: facets(triangles.map((t) => t.map(side))),
    }));
  }
  for (const [id, { edge, openings: holes }] of Object.entries(panels)) {
    const triangles = sheetTriangles(
      edge,
      holes.flatMap((name) => (openings[name] ? [openings[name]] : [])),
    );
    if (!triangles) {
      unusable.push(id);
      continue;
    }
    add(id, edge, (side, name) => ({
      id: name,
      kind: "panel",
      facets: facets(triangles.map((t) => t.map(side))),
    }));
  }
  return { parts, gates, unusable };
}
