import { BufferAttribute, BufferGeometry, Group, Mesh, type Points } from "three";
import type { Place } from "../../core/job/index.ts";
import { ballMesh, type Mesh as CoreMesh, capsuleMesh, plateMesh } from "../../core/mesh/index.ts";
import { sub, type Vec } from "../../core/space/index.ts";
import { points } from "./bars.ts";
import { chained, lineObject } from "./lines.ts";
import { POINT, SKIN } from "./marks.ts";
import type { Materials } from "./materials.ts";
import type { Blob } from "./stand.ts";
import type { ViewExtras } from "./types.ts";

/** What is not a bar: plates, body lines and skin, measured points, the driver. */
export class Extras {
  readonly group = new Group();
  private readonly parts = new Map<keyof ViewExtras, { readonly of: unknown; readonly group: Group }>();
  private readonly materials: Materials;
  private readonly origin: Vec;
  private shown: ViewExtras | undefined;

  constructor(materials: Materials, origin: Vec) {
    this.materials = materials;
    this.origin = origin;
  }

  set(extras: ViewExtras): void {
    this.shown = extras;
    this.part("plates", extras.plates, () =>
      Object.values(extras.plates).flatMap((plate) => this.plate(plateMesh(plate, this.origin))),
    );
    this.part("body", extras.body, () => this.body(extras.body));
    this.part("points", extras.points, () => {
      const known = Object.values(extras.points).flatMap((p) => (p.at ? [p.at] : []));
      return known.length > 0 ? [points(this.placed(known), this.materials.mark(POINT))] : [];
    });
    this.part("driver", extras.driver, () => this.driver(extras.driver));
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
        (p): Blob => ({ at: p.at, radius: Math.max(...(p.size ?? [100, 100])) / 1.4 }),
      ),
      ...rows.flat().map((at): Blob => ({ at, radius: 0 })),
      ...Object.values(known).flatMap((p): Blob[] => (p.at ? [{ at: p.at, radius: 0 }] : [])),
      ...(driver?.helmet ? [{ at: driver.helmet, radius: driver.helmetRadius ?? 0 }] : []),
      ...(driver?.hip ? [{ at: driver.hip, radius: driver.torsoRadius ?? 0 }] : []),
      ...(driver?.shoulder ? [{ at: driver.shoulder, radius: driver.torsoRadius ?? 0 }] : []),
    ];
  }

  dispose(): void {
    for (const { group } of this.parts.values()) empty(group);
  }

  private part(name: keyof ViewExtras, of: unknown, make: () => (Mesh | Points)[]): void {
    const kept = this.parts.get(name);
    if (kept && kept.of === of) return;
    if (kept) {
      empty(kept.group);
      this.group.remove(kept.group);
    }
    const group = new Group();
    for (const object of make()) group.add(object);
    this.group.add(group);
    this.parts.set(name, { of, group });
  }

  private plate(mesh: CoreMesh): Mesh[] {
    return [
      new Mesh(geometryOf(mesh), this.materials.fill("fill", "shade", "ink", false)),
      lineObject(mesh.edges, this.materials.line("ink", 1, "solid")),
    ];
  }

  /** Adjacent parts are long-dashed double-dotted lines (ISO 128). */
  private body({ lines, skin, openings = {}, panels = {} }: ViewExtras["body"]): (Mesh | Points)[] {
    const edges = [...Object.values(openings), ...Object.values(panels).map((p) => p.edge)];
    const rows = [
      ...Object.values(lines).filter((row) => row.length > 1),
      ...edges.filter((row) => row.length > 2).map((row) => [...row, row[0]!]),
    ];
    const places = Object.values(skin).flat();
    return [
      ...rows.map((row) =>
        lineObject(
          chained(row.map((p) => sub(p, this.origin))),
          this.materials.line("muted", 1.3, "phantom"),
        ),
      ),
      ...(places.length > 0 ? [points(this.placed(places), this.materials.mark(SKIN))] : []),
    ];
  }

  private driver(driver: ViewExtras["driver"]): Mesh[] {
    const { hip, shoulder, torsoRadius, helmet, helmetRadius } = driver ?? {};
    const bodies: CoreMesh[] = [];
    if (hip && shoulder && torsoRadius) bodies.push(capsuleMesh(hip, shoulder, torsoRadius, this.origin));
    if (helmet && helmetRadius) bodies.push(ballMesh(helmet, helmetRadius, this.origin));
    return bodies.map((body) => new Mesh(geometryOf(body), this.materials.ghost("muted")));
  }

  private placed(places: readonly Place[]): Float32Array {
    return Float32Array.from(places.flatMap((p) => [...sub(p, this.origin)]));
  }
}

function geometryOf(mesh: CoreMesh): BufferGeometry {
  const geometry = new BufferGeometry();
  geometry.setAttribute("position", new BufferAttribute(mesh.positions, 3));
  geometry.setAttribute("normal", new BufferAttribute(mesh.normals, 3));
  geometry.setIndex(new BufferAttribute(mesh.indices, 1));
  return geometry;
}

function empty(group: Group): void {
  for (const child of group.children) (child as Mesh).geometry.dispose();
  group.clear();
}
