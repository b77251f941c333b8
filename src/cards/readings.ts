import type { Job, PathNode, Place } from "../core/job/index.ts";
import { placedPoints } from "../core/plan/index.ts";
import type { Vec } from "../core/space/index.ts";
import { SOURCES as SAYS, sayDieOf, sayShop } from "../words/index.ts";
import type { Subject } from "./subject.ts";

/** What a bar was figured from, one line a thing: path and landings, points, die and its tests, shop settings. */
export function figuredFrom(s: Subject): string[] {
  const { job } = s.plan;
  const own = job.bars[s.id];
  const of = own?.kind === "mirror" ? job.bars[own.mirrorOf] : own;
  const lines: string[] = [];
  if (own?.kind === "mirror") lines.push(SAYS.mirror(s.called(own.mirrorOf)));
  if (of?.kind === "path") {
    const path = of.path.map((node, i) => SAYS.node(i, of.path.length, sayNode(node, job, s)));
    if (path.length > 0) lines.push(SAYS.path(path, own?.kind === "mirror"));
    if (of.follow) lines.push(SAYS.follow(s.called(of.follow.bar), s.write.length(of.follow.gap)));
  }
  lines.push(...sayDie(s));
  const { trim } = s.bar.bend;
  const { steepest } = job.notcher;
  const shop = {
    A: s.write.length(trim.A),
    B: s.write.length(trim.B),
    gap: s.fine(job.shop.gap),
    kerf: s.fine(job.shop.kerf),
    steepest: steepest === undefined ? undefined : s.write.angle(steepest),
  };
  return [...lines, sayShop(shop)];
}

const diagonal = ([x, y, z]: readonly [Vec, Vec, Vec]): Vec => [x[0], y[1], z[2]];

function sayNode(node: PathNode, job: Job, s: Subject): string {
  const place = (p: Place): string => SAYS.place(...p.map((v) => s.write.length(v)));
  const moved = (p: Place): string | undefined => (p.some((v) => v !== 0) ? place(p) : undefined);
  switch (node.kind) {
    case "at":
      return SAYS.at(place(node.at));
    case "step":
      return SAYS.step(place(node.step));
    case "plate": {
      const plate = job.plates[node.plate];
      return SAYS.plate(node.plate, plate && place(plate.at));
    }
    case "point": {
      const point = placedPoints(s.plan.places)[node.point];
      const sd = point?.covariance && diagonal(point.covariance).map((v) => s.fine(Math.sqrt(v)));
      return SAYS.point(node.point, point && place(point.at), sd, moved(node.by));
    }
    case "on": {
      const { where } = node;
      const at =
        where.by === "along"
          ? SAYS.along(s.write.length(Math.abs(where.along)), where.along < 0 ? "B" : "A")
          : where.by === "plane"
            ? SAYS.plane(where.axis, s.write.length(where.value), sayNear(where.near, place))
            : SAYS.toward(sayNode(where.toward, job, s));
      return SAYS.on(s.called(node.on), at, moved(node.off), node.also.map(s.called));
    }
  }
}

const sayNear = (near: string | Place | undefined, place: (p: Place) => string): string | undefined =>
  near === undefined || typeof near === "string" ? near : SAYS.near(place(near));

function sayDie(s: Subject): string[] {
  const { die, dieId, centreline } = s.bar.bar;
  if (!die || centreline.bends.length === 0) return [];
  const { springback, tests, mark } = die;
  const spring = springback
    ? { k: springback.k, c: s.write.angle(Math.abs(springback.c)), less: springback.c < 0 }
    : tests.map((t) => ({ set: s.write.angle(t.set), got: s.write.angle(t.got) }));
  return [
    sayDieOf({
      die: dieId ?? "",
      clr: s.write.length(die.clr),
      springback: spring,
      arcFactor: die.arcFactor,
      mark: mark === 0 ? undefined : { by: s.fine(Math.abs(mark)), past: mark > 0 },
    }),
  ];
}
