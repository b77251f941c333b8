import type { Job, PathNode, Place } from "../core/job/index.ts";
import { placedPoints } from "../core/plan/index.ts";
import type { Subject } from "./subject.ts";

/** What a bar was figured from, one line a thing: path and landings, points, die and its tests, shop settings. */
export function figuredFrom(s: Subject): string[] {
  const { job } = s.plan;
  const own = job.bars[s.id];
  const of = own?.kind === "mirror" ? job.bars[own.mirrorOf] : own;
  const lines: string[] = [];
  if (own?.kind === "mirror") lines.push(`Mirror image of ${own.mirrorOf} about the centre plane y = 0.`);
  if (of?.kind === "path") {
    const path = of.path.map((node, i) => `${nodeName(i, of.path.length)}: ${sayNode(node, job, s)}`);
    if (path.length > 0)
      lines.push(`Path${own?.kind === "mirror" ? " of the original" : ""} — ${path.join("; ")}.`);
    if (of.follow)
      lines.push(`Follows ${of.follow.bar} at a gap of ${s.write.length(of.follow.gap)}, face to face.`);
  }
  lines.push(...sayDie(s));
  const { trim } = s.bar.bend;
  const { kerf } = job.shop;
  const steepest = job.notcher.steepest;
  const notcher = steepest === undefined ? "" : `; notcher up to ${s.write.angle(steepest)} off square`;
  lines.push(
    `Trim ${s.write.length(trim.A)} at A, ${s.write.length(trim.B)} at B; gap accepted ${s.fine(job.shop.gap)}; kerf ${s.fine(kerf)}${notcher}.`,
  );
  return lines;
}

const nodeName = (i: number, count: number): string =>
  i === 0 ? "A" : i === count - 1 ? "B" : `corner ${i}`;

function sayNode(node: PathNode, job: Job, s: Subject): string {
  const place = (p: Place): string => `(${p.map((v) => s.write.length(v)).join(", ")})`;
  const any = (p: Place): boolean => p.some((v) => v !== 0);
  switch (node.kind) {
    case "at":
      return `at ${place(node.at)}`;
    case "step":
      return `${place(node.step)} on from there`;
    case "plate": {
      const plate = job.plates[node.plate];
      return `flat on plate ${node.plate}${plate ? ` at ${place(plate.at)}` : ""}`;
    }
    case "point": {
      const point = placedPoints(s.plan.places)[node.point];
      const where = point ? ` ${place(point.at)}` : "";
      const sd = point?.covariance?.map((row, k) => s.fine(Math.sqrt(row[k]!)));
      const error = sd ? ` ± ${sd.join(", ")}` : "";
      return `point ${node.point}${where}${error}${any(node.by) ? ` moved by ${place(node.by)}` : ""}`;
    }
    case "on": {
      const { where } = node;
      const at =
        where.by === "along"
          ? `${s.write.length(Math.abs(where.along))} along it from ${where.along < 0 ? "B" : "A"}`
          : where.by === "plane"
            ? `where it crosses ${where.axis} = ${s.write.length(where.value)}${where.near === undefined ? "" : `, ${typeof where.near === "string" ? where.near : `near ${place(where.near)}`}`}`
            : `closest to ${sayNode(where.toward, job, s)}`;
      const off = any(node.off) ? `, off its axis by ${place(node.off)}` : "";
      const also = node.also.length > 0 ? `, also coped to ${node.also.join(", ")}` : "";
      return `on ${node.on}, ${at}${off}${also}`;
    }
  }
}

function sayDie(s: Subject): string[] {
  const { die, dieId, centreline } = s.bar.bar;
  if (!die || centreline.bends.length === 0) return [];
  const spring = die.springback
    ? `springback as stated, got = ${die.springback.k} × set ${die.springback.c < 0 ? "−" : "+"} ${s.write.angle(Math.abs(die.springback.c))}`
    : die.tests.length > 0
      ? `springback from ${die.tests.length} test bend${die.tests.length === 1 ? "" : "s"} (set ${die.tests.map((t) => `${s.write.angle(t.set)} got ${s.write.angle(t.got)}`).join(", ")})`
      : "no test bends yet";
  const grows = die.arcFactor === 1 ? "" : `; arc factor ${die.arcFactor}`;
  const mark =
    die.mark === 0
      ? "marks at the start of the bend"
      : `marks ${s.fine(Math.abs(die.mark))} ${die.mark > 0 ? "past" : "before"} the start of the bend`;
  return [`Die ${dieId ?? ""}: centreline radius ${s.write.length(die.clr)}; ${spring}${grows}; ${mark}.`];
}
