// biome-ignore-all lint/style/noNonNullAssertion: a path has two nodes at least (the schema), corners run from landing to landing, and a landing names its host first.
import type { End, Place } from "../../../../core/job/index.ts";
import {
  at,
  entries,
  entry,
  isList,
  isObject,
  type JobDocument,
  type Json,
  type JsonObject,
  withEntry,
} from "../../../../shared/index.ts";
import { freeId, otherSide, thingsOf } from "../names.ts";
import { withThing } from "./things.ts";

/** Where a bar stands, as computed: millimetres, car axes. */
export interface Stands {
  /** From landing to landing over the corners. */
  readonly corners: readonly Place[];
  readonly ends: Readonly<
    Record<
      End,
      {
        /** Host first; the station on it, and how far the landing is moved off it. */
        readonly on?: { readonly hosts: readonly string[]; readonly along: number; readonly off: Place };
        readonly plate?: { readonly id: string; readonly at: Place; readonly normal: Place };
      }
    >
  >;
}

/** Undefined for a bar that has no geometry. */
export type StandsAt = (bar: string) => Stands | undefined;

/** Places are kept to a tenth of a micrometre. */
const tidy = (x: number): number => Math.round(x * 1e4) / 1e4 + 0;
const place = (p: Place): Json => p.map(tidy);

/** The document in which `bar` no longer needs `gone`: its path says where it stands now. */
export function leftStanding(document: JobDocument, bar: string, gone: string, stands: Stands): JobDocument {
  const was = thingsOf(document, "bar")[bar];
  if (!isObject(was)) return document;
  const own =
    typeof was.mirrorOf === "string" ? fromMirror(document, was, gone, stands) : { document, bar: was };
  const path = entry(own.bar, "path");
  if (!isList(path)) return document;
  const followed = entry(entry(own.bar, "follow"), "bar") === gone;
  const inner = followed ? stands.corners.slice(1, -1).map(place) : path.slice(1, -1);
  const ends = { A: path[0]!, B: path[path.length - 1]! };
  const nodes = [endNode(ends.A, "A", gone, stands), ...inner, endNode(ends.B, "B", gone, stands)];
  const free = followed ? withEntry(own.bar, "follow", undefined) : own.bar;
  return withThing(own.document, "bar", bar, withEntry(free, "path", nodes));
}

/** A node that lands on the bar that goes becomes the place there; one that runs toward it, a station on its own host. */
function endNode(node: Json, end: End, gone: string, stands: Stands): Json {
  if (entry(node, "on") === gone) return place(end === "A" ? stands.corners[0]! : stands.corners.at(-1)!);
  if (!mentions(entry(node, "toward"), gone)) return node;
  const along = stands.ends[end].on?.along;
  if (along === undefined || !isObject(node)) return node;
  return withEntry(withEntry(node, "toward", undefined), "along", tidy(along));
}

const mentions = (node: Json | undefined, bar: string): boolean =>
  node !== undefined && (entry(node, "on") === bar || mentions(entry(node, "toward"), bar));

/** A mirrored bar as a bar of its own: tube, die and trim of its original, the path where it stands. */
function fromMirror(document: JobDocument, was: JsonObject, gone: string, stands: Stands) {
  const original = at(document, ["bars", was.mirrorOf as string]);
  const borrowed = entries(original).filter(([key]) => ["tube", "die", "trim", "fromEnd"].includes(key));
  const said = entries(was).filter(([key]) => key !== "mirrorOf" && key !== "trim");
  const trim = {
    ...(isObject(entry(original, "trim")) ? (entry(original, "trim") as JsonObject) : {}),
    ...(isObject(was.trim) ? was.trim : {}),
  };
  let next = document;
  const node = (end: End): Json => {
    const { on, plate } = stands.ends[end];
    const here = place(end === "A" ? stands.corners[0]! : stands.corners.at(-1)!);
    if (plate) {
      const from = at(document, ["plates", plate.id]);
      const id = freeId(next, "plate", otherSide(plate.id) ?? `${plate.id}-mirrored`);
      next = withThing(next, "plate", id, {
        ...(isObject(from) ? from : {}),
        at: place(plate.at),
        normal: [...plate.normal],
      });
      return { plate: id };
    }
    if (!on || on.hosts[0] === gone) return here;
    const also = on.hosts.slice(1).filter((host) => host !== gone);
    return {
      on: on.hosts[0]!,
      along: tidy(on.along),
      ...(on.off.some((x) => x !== 0) ? { off: place(on.off) } : {}),
      ...(also.length > 0 ? { also } : {}),
    };
  };
  const path = [node("A"), ...stands.corners.slice(1, -1).map(place), node("B")];
  const bar = Object.fromEntries([
    ...borrowed,
    ...said,
    ...(Object.keys(trim).length > 0 ? [["trim", trim] as const] : []),
    ["path", path] as const,
  ]);
  return { document: next, bar: bar as JsonObject };
}

/** The document in which no end is coped to a bar besides the one that it lands on. */
export function withoutCrowd(document: JobDocument, gone: string): JobDocument {
  let next = document;
  for (const [id, bar] of entries(thingsOf(document, "bar"))) {
    const path = entry(bar, "path");
    if (!isList(path) || !isObject(bar)) continue;
    const nodes = path.map((node) => uncrowded(node, gone));
    if (nodes.some((node, i) => node !== path[i]))
      next = withThing(next, "bar", id, withEntry(bar, "path", nodes));
  }
  return next;
}

function uncrowded(node: Json, gone: string): Json {
  const also = entry(node, "also");
  if (!isList(also) || !also.includes(gone) || !isObject(node)) return node;
  const rest = also.filter((id) => id !== gone);
  return withEntry(node, "also", rest.length > 0 ? rest : undefined);
}
