// biome-ignore-all lint/style/noNonNullAssertion: rows are walked by their own indices; there is a step between every two places of a row, and a row has two at least.
import { BufferAttribute, BufferGeometry, Group, Mesh, type Points } from "three";
import type { Place } from "../../core/job/index.ts";
import { ballMesh, type Mesh as CoreMesh, capsuleMesh, plateMesh } from "../../core/mesh/index.ts";
import { sub, type Vec } from "../../core/space/index.ts";
import { pointWords } from "../../words/index.ts";
import type { Blob } from "./camera.ts";
import { chained, lineObject } from "./lines.ts";
import { marked, POINT, SKIN } from "./marks.ts";
import type { Materials } from "./materials.ts";
import type { Named } from "./names.ts";
import type { ViewExtras } from "./types.ts";

/** What is not a bar: plates, body lines and skin, measured points, the driver. */
export class Extras {
  readonly group = new Group();
  private readonly parts = new Map<keyof ViewExtras, { readonly of: string; readonly group: Group }>();
  private readonly materials: Materials;
  private readonly origin: Vec;
  private shown: ViewExtras | undefined;

  constructor(materials: Materials, origin: Vec) {
    this.materials = materials;
    this.origin = origin;
  }

  /** Whether any of it is another than before. */
  set(extras: ViewExtras): boolean {
    this.shown = extras;
    const changed = [
      this.part("plates", extras.plates, () => this.plates(extras.plates)),
      this.part("body", extras.body, () => this.body(extras.body)),
      this.part("points", extras.points, () => {
        const known = Object.values(extras.points).map((p) => p.at);
        return known.length > 0 ? [marked(this.placed(known), this.materials.mark(POINT))] : [];
      }),
      this.part("driver", extras.driver, () => this.driver(extras.driver)),
      this.part("wanted", extras.wanted, () => this.wanted(extras.wanted ?? [])),
    ];
    return changed.includes(true);
  }

  /** For fitting where there are no bars yet, and for the depth that the picture needs. */
  blobs(): Blob[] {
    const { plates = {}, body, points: known = {}, driver } = this.shown ?? {};
    const rows = body
      ? [
          ...[body.lines, body.skin, body.openings ?? {}].flatMap((all) => Object.values(all)),
          ...Object.values(body.panels ?? {}).map((p) => p.edge),
        ]
      : [];
    return [
      ...Object.values(plates).map(
        (p): Blob => ({ at: p.at, radius: p.size ? Math.hypot(...p.size) / 2 : (p.unsized ?? 50) }),
      ),
      ...rows.flat().map((at): Blob => ({ at, radius: 0 })),
      ...Object.values(known).map(({ at }): Blob => ({ at, radius: 0 })),
      ...(driver?.helmet ? [{ at: driver.helmet, radius: driver.helmetRadius ?? 0 }] : []),
      ...(driver?.hip ? [{ at: driver.hip, radius: driver.torsoRadius ?? 0 }] : []),
      ...(driver?.shoulder ? [{ at: driver.shoulder, radius: driver.torsoRadius ?? 0 }] : []),
    ];
  }

  get points(): ViewExtras["points"] {
    return this.shown?.points ?? {};
  }

  /** What of it has a name. */
  named(inHand: readonly string[]): Named[] {
    const { plates = {}, body } = this.shown ?? {};
    const { lines = {}, skin = {}, openings = {}, panels = {} } = body ?? {};
    const edges = Object.entries(panels).map(([id, { edge }]) => [id, edge] as const);
    const rows = [lines, openings, skin].flatMap((all) => Object.entries(all));
    return [
      ...Object.entries(this.points).map(
        ([id, { at, covariance }]): Named => ({
          kind: "point",
          id,
          says: pointWords(id),
          path: [at],
          radius: 0,
          isInHand: inHand.includes(id),
          ...(covariance ? { covariance } : {}),
        }),
      ),
      ...Object.entries(plates).map(
        ([id, { at, size, unsized }]): Named => ({
          kind: "plate",
          id,
          says: id,
          path: [at],
          radius: size ? Math.min(...size) / 2 : (unsized ?? 50),
          isInHand: false,
        }),
      ),
      ...[...rows, ...edges].flatMap(([id, path]): Named[] =>
        path.length > 0 ? [{ kind: "body", id, says: id, path, radius: 0, isInHand: false }] : [],
      ),
    ];
  }

  dispose(): void {
    for (const { group } of this.parts.values()) empty(group);
  }

  /** A job read anew says the same in other objects, so it is what they say that counts. */
  private part(name: keyof ViewExtras, what: unknown, make: () => (Mesh | Points)[]): boolean {
    const of = JSON.stringify(what) ?? "";
    const kept = this.parts.get(name);
    if (kept?.of === of) return false;
    if (kept) {
      empty(kept.group);
      this.group.remove(kept.group);
    }
    const group = new Group();
    for (const object of make()) group.add(object);
    this.group.add(group);
    this.parts.set(name, { of, group });
    return true;
  }

  private plates(plates: ViewExtras["plates"]): Mesh[] {
    const meshes = Object.values(plates).map((plate) => plateMesh(plate, this.origin));
    if (meshes.length === 0) return [];
    const edges = joined(meshes.map((m) => m.edges));
    return [
      new Mesh(geometryOf(meshes), this.materials.fill("plate", "plate", "muted", false)),
      lineObject(edges, this.materials.line("muted", 0.9, "solid")),
    ];
  }

  /** Adjacent parts are thin long-dashed double-dotted lines (ISO 128). */
  private body({ lines, skin, openings = {}, panels = {} }: ViewExtras["body"]): (Mesh | Points)[] {
    const edges = [...Object.values(openings), ...Object.values(panels).map((p) => p.edge)];
    const rows = [
      ...Object.values(lines).filter((row) => row.length > 1),
      ...edges.filter((row) => row.length > 2).map((row) => [...row, row[0]!]),
    ];
    const places = Object.values(skin).flat();
    const segments = joined(rows.map((row) => chained(row.map((p) => sub(p, this.origin)))));
    return [
      ...(segments.length > 0 ? [lineObject(segments, this.materials.line("muted", 0.9, "phantom"))] : []),
      ...(places.length > 0 ? [marked(this.placed(places), this.materials.mark(SKIN))] : []),
    ];
  }

  /** A thin dashed line through everything: it may run inside the very bar that is a little beside it. */
  private wanted(rows: NonNullable<ViewExtras["wanted"]>): Mesh[] {
    const segments = joined(rows.map((row) => chained(row.map((p) => sub(p, this.origin)))));
    return segments.length > 0 ? [lineObject(segments, this.materials.line("ink", 1, "dashed", true))] : [];
  }

  private driver(driver: ViewExtras["driver"]): Mesh[] {
    const { hip, shoulder, torsoRadius, helmet, helmetRadius } = driver ?? {};
    const bodies: CoreMesh[] = [];
    if (hip && shoulder && torsoRadius) bodies.push(capsuleMesh(hip, shoulder, torsoRadius, this.origin));
    if (helmet && helmetRadius) bodies.push(ballMesh(helmet, helmetRadius, this.origin));
    return bodies.map((body) => new Mesh(geometryOf([body]), this.materials.ghost("plate")));
  }

  private placed(places: readonly Place[]): Float32Array {
    return Float32Array.from(places.flatMap((p) => [...sub(p, this.origin)]));
  }
}

/** Several bodies as one. */
function geometryOf(meshes: readonly CoreMesh[]): BufferGeometry {
  const geometry = new BufferGeometry();
  geometry.setAttribute("position", new BufferAttribute(joined(meshes.map((m) => m.positions)), 3));
  geometry.setAttribute("normal", new BufferAttribute(joined(meshes.map((m) => m.normals)), 3));
  let first = 0;
  const indices = meshes.flatMap((m) => {
    const own = [...m.indices].map((i) => i + first);
    first += m.positions.length / 3;
    return own;
  });
  return geometry.setIndex(indices);
}

function joined(rows: readonly Float32Array[]): Float32Array {
  const out = new Float32Array(rows.reduce((sum, row) => sum + row.length, 0));
  let at = 0;
  for (const row of rows) {
    out.set(row, at);
    at += row.length;
  }
  return out;
}

function empty(group: Group): void {
  for (const child of group.children) (child as Mesh).geometry.dispose();
  group.clear();
}
