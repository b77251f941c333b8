import { BufferAttribute, BufferGeometry, Group, Mesh, Points, type ShaderMaterial } from "three";
import type { Progress } from "../../core/job/index.ts";
import { sectionOf, type TubeMesh } from "../../core/mesh/index.ts";
import type { Vec } from "../../core/space/index.ts";
import { drawFirst, lineObject } from "./lines.ts";
import { ATTENTION, TACK } from "./marks.ts";
import type { Materials, Pattern } from "./materials.ts";
import { posedAt, type Staging, stageGroup } from "./staging.ts";
import type { Blob } from "./stand.ts";
import type { ViewTheme } from "./theme.ts";
import type { Section, ViewBar } from "./types.ts";

/** How far a bar has come, in its line. */
const LINE_OF: Readonly<Record<Progress, Pattern>> = {
  "laid out": "dotted",
  sawn: "dashed",
  bent: "dashed",
  notched: "dashed",
  fitted: "dashed",
  tacked: "dashed",
  welded: "solid",
};

interface Built {
  bar: ViewBar;
  readonly group: Group;
  readonly fill: Mesh;
  readonly hull: Mesh;
  readonly rims: Mesh;
  readonly near: BufferAttribute;
  readonly far: BufferAttribute;
  /** What depends on its state, beside those three. */
  extra: (Mesh | Points)[];
  /** Outline of the section through it. */
  cut: Mesh | undefined;
}

/** A cut's outline lies this far inside what is kept, so that the section does not take it away (mm). */
const INSIDE = 0.05;

/** The bars in the scene, kept by ID and built anew only where the mesh is another object. */
export class Bars {
  readonly group = new Group();
  private readonly built = new Map<string, Built>();
  private readonly materials: Materials;
  private readonly origin: Vec;
  private inHand: string | null = null;
  private section: Required<Section> | null = null;
  private isFar = false;
  private staging: Staging | null = null;

  constructor(materials: Materials, origin: Vec) {
    this.materials = materials;
    this.origin = origin;
  }

  set(bars: readonly ViewBar[]): void {
    const wanted = new Set(bars.map((b) => b.id));
    for (const [id, built] of this.built) {
      if (!wanted.has(id)) this.remove(id, built);
    }
    for (const bar of bars) {
      const kept = this.built.get(bar.id);
      if (kept && kept.bar.mesh === bar.mesh) {
        const { progress, state } = kept.bar;
        kept.bar = bar;
        if (progress !== bar.progress || state !== bar.state) this.dress(kept);
        continue;
      }
      if (kept) this.remove(bar.id, kept);
      const built = this.build(bar);
      this.built.set(bar.id, built);
      this.group.add(built.group);
      this.dress(built);
      this.range(built);
      this.cut(built);
      this.stage(built);
    }
  }

  /** A moment of fitting, or all bars at their seats. */
  setStaging(staging: Staging | null): void {
    this.staging = staging;
    for (const built of this.built.values()) this.stage(built);
  }

  private stage({ bar: { id, mesh }, group }: Built): void {
    stageGroup(group, id, mesh.origin, this.origin, this.staging);
  }

  /** From afar the coarse surfaces do, and are drawn in a third of the time. */
  setFar(isFar: boolean): void {
    if (isFar === this.isFar) return;
    this.isFar = isFar;
    for (const built of this.built.values()) this.range(built);
  }

  setSection(section: Required<Section> | null): void {
    this.section = section;
    for (const built of this.built.values()) {
      this.range(built);
      this.cut(built);
    }
  }

  setInHand(id: string | null): void {
    const before = this.inHand;
    this.inHand = id;
    for (const changed of new Set([before, id])) {
      const built = changed === null ? undefined : this.built.get(changed);
      if (built) this.dress(built);
    }
  }

  /** For picking, in car axes but for the origin that each names. */
  pickables(): { id: string; origin: Vec; spine: Float32Array; radius: number }[] {
    const { posed, hidden } = this.staging ?? {};
    const seated = [...this.built.values()].filter(({ bar: { id } }) => id !== posed?.id && !hidden?.has(id));
    return seated.map(({ bar: { id, mesh } }) => ({
      id,
      origin: mesh.origin,
      spine: mesh.spine,
      radius: mesh.radius,
    }));
  }

  /** Balls that hold the bars (these, or all): for fitting. */
  blobs(ids?: readonly string[]): Blob[] {
    const out: Blob[] = [];
    for (const { bar } of this.built.values()) {
      if ((ids && !ids.includes(bar.id)) || this.staging?.hidden.has(bar.id)) continue;
      const posed = this.staging?.posed?.id === bar.id ? this.staging.posed : undefined;
      const { spine, origin: o, radius } = bar.mesh;
      for (let i = 0; i < spine.length; i += 4) {
        const at: Vec = [spine[i]! + o[0], spine[i + 1]! + o[1], spine[i + 2]! + o[2]];
        out.push({ at: posed ? posedAt(posed, at) : at, radius });
      }
    }
    return out;
  }

  dispose(): void {
    for (const [id, built] of this.built) this.remove(id, built);
  }

  private build(bar: ViewBar): Built {
    const { mesh } = bar;
    const position = new BufferAttribute(mesh.positions, 3);
    const normal = new BufferAttribute(mesh.normals, 3);
    const near = new BufferAttribute(mesh.indices, 1);
    const far = new BufferAttribute(mesh.farIndices, 1);
    const whole = new BufferGeometry();
    whole.setAttribute("position", position).setAttribute("normal", normal);
    whole.computeBoundingSphere();
    const outside = new BufferGeometry();
    outside.setAttribute("position", position).setAttribute("normal", normal);
    outside.setAttribute("along", new BufferAttribute(mesh.stations, 1));
    outside.boundingSphere = whole.boundingSphere;
    const none = this.materials.fill("fill", "shade", "ink");
    const fill = new Mesh(whole, none);
    const hull = new Mesh(outside, none);
    const rims = lineObject(mesh.edges, none);
    const group = new Group();
    group.add(fill, hull, rims);
    return { bar, group, fill, hull, rims, near, far, extra: [], cut: undefined };
  }

  /** The bore and its rims are drawn only where one can see them. */
  private range({ bar: { mesh }, fill, hull, rims, near, far }: Built): void {
    const seesIn = this.section !== null || mesh.hasOpenEnd;
    const outer = this.isFar ? mesh.farOuterCount : mesh.outerCount;
    for (const object of [fill, hull]) object.geometry.setIndex(this.isFar ? far : near);
    fill.geometry.setDrawRange(0, seesIn ? Infinity : outer);
    hull.geometry.setDrawRange(0, outer);
    drawFirst(rims, seesIn ? Infinity : mesh.outerEdges);
  }

  private cut(built: Built): void {
    const { mesh } = built.bar;
    if (built.cut) {
      built.group.remove(built.cut);
      built.cut.geometry.dispose();
      built.cut = undefined;
    }
    if (!this.section) return;
    const { axis, at, away } = this.section;
    const k = "xyz".indexOf(axis) as 0 | 1 | 2;
    const outline = sectionOf(mesh, k, at);
    if (outline.length === 0) return;
    for (let i = k; i < outline.length; i += 3) outline[i]! += away === "greater" ? -INSIDE : INSIDE;
    built.cut = lineObject(outline, this.materials.line("ink", 1.5, "solid"));
    built.group.add(built.cut);
  }

  /** Lines, colours and marks of what a bar is now. */
  private dress(built: Built): void {
    const { bar, group } = built;
    const { materials } = this;
    const isInHand = bar.id === this.inHand;
    const needsLook = bar.state === "attention";
    const colour: keyof ViewTheme = isInHand ? "inHand" : needsLook ? "attention" : "ink";
    const face: keyof ViewTheme = isInHand ? "inHandFill" : needsLook ? "attentionFill" : "fill";
    const pattern = LINE_OF[bar.progress];
    built.fill.material = materials.fill(face, isInHand || needsLook ? face : "shade", colour);
    built.hull.material = materials.hull(colour, isInHand ? 2.4 : 1.2, pattern);
    built.rims.material = materials.line(colour, isInHand ? 1.6 : 0.9, "solid");
    for (const old of built.extra) {
      group.remove(old);
      old.geometry.dispose();
    }
    built.extra = this.extras(bar, isInHand, needsLook);
    if (built.extra.length > 0) group.add(...built.extra);
  }

  private extras({ mesh, progress }: ViewBar, isInHand: boolean, needsLook: boolean): (Mesh | Points)[] {
    const { materials } = this;
    const out: (Mesh | Points)[] = [];
    if (progress === "tacked" && mesh.tacks.length > 0) out.push(points(mesh.tacks, materials.mark(TACK)));
    if (mesh.open.length > 0) out.push(lineObject(mesh.open, materials.line("attention", 3, "dashed")));
    if (isInHand) {
      out.push(lineObject(spineSegments(mesh), materials.line("inHand", 1.2, "chain", true)));
    }
    if (needsLook) out.push(points(middleOf(mesh), materials.mark(ATTENTION)));
    for (const object of out) object.renderOrder = 1;
    return out;
  }

  private remove(id: string, { group, fill, hull, rims, extra, cut }: Built): void {
    this.group.remove(group);
    for (const object of [fill, hull, rims, ...extra, ...(cut ? [cut] : [])]) object.geometry.dispose();
    this.built.delete(id);
  }
}

export function points(places: Float32Array, material: ShaderMaterial): Points {
  const geometry = new BufferGeometry();
  geometry.setAttribute("position", new BufferAttribute(places, 3));
  return new Points(geometry, material);
}

function spineSegments({ spine }: TubeMesh): Float32Array {
  const out: number[] = [];
  for (let i = 0; i + 4 < spine.length; i += 4) {
    out.push(spine[i]!, spine[i + 1]!, spine[i + 2]!, spine[i + 4]!, spine[i + 5]!, spine[i + 6]!);
  }
  return Float32Array.from(out);
}

/** Half way along the bar. */
function middleOf({ spine }: TubeMesh): Float32Array {
  const last = spine.length - 4;
  const half = (spine[3]! + spine[last + 3]!) / 2;
  let i = 0;
  while (i + 8 <= last && spine[i + 7]! < half) i += 4;
  const t = (half - spine[i + 3]!) / (spine[i + 7]! - spine[i + 3]!);
  return Float32Array.from([0, 1, 2].map((k) => spine[i + k]! + t * (spine[i + 4 + k]! - spine[i + k]!)));
}
