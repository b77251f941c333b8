// biome-ignore-all lint/style/noNonNullAssertion: poses.slice(1) is one shorter than poses, so each of its indices is one of poses.
import { count, degrees, list, mm, type Phrase, phrase, text, thing } from "../../findings/index.ts";
import { neg, type Vec } from "../../space/index.ts";
import type { Mobility } from "../joint/index.ts";
import type { Pose } from "../scene/index.ts";
import { type How, travel } from "../way/index.ts";
import type { Effort, Joint, Judged, Past } from "./judged.ts";

const SEARCHED = phrase("fit-searched");

export const whyMissing = (hosts: readonly string[]): readonly Phrase[] => [
  phrase(hosts.length > 1 ? "fit-hosts-missing" : "fit-host-missing", { hosts: list(hosts.map(thing)) }),
];

export const whyFouled = ({ id, by }: Judged["fouls"][number]): readonly Phrase[] => [
  phrase("fit-fouled", { by: mm(by), id: thing(id) }),
];

export const whyUnchecked = (met: string, by: number): readonly Phrase[] => [
  phrase("fit-unchecked", { id: thing(met), by: mm(by) }),
];

/** Why no way was found: what was tried, and whether that is a proof. */
export function whyNot(
  mobility: Mobility,
  joint: Joint,
  proved: boolean,
  loose: boolean,
  blockedBy: readonly string[],
  effort: Effort,
): readonly Phrase[] {
  const by = blockedBy.length > 0 ? [phrase("fit-in-the-way", { ids: list(blockedBy.map(thing)) })] : [];
  if (joint === "locked" && !loose) {
    const lips = mobility.lips.slice(0, 4).map((l) => phrase("fit-lip", lipValues(l)));
    return [
      phrase(proved ? "fit-held-proved" : "fit-held"),
      ...(lips.length > 0 ? [phrase("fit-held-at", { lips: list(lips) })] : []),
      phrase("fit-sprung-in-vain", { most: mm(effort.most) }),
      ...by,
      SEARCHED,
    ];
  }
  if (!loose) return [phrase("fit-no-move"), ...by, SEARCHED];
  return [phrase("fit-no-way-out", { nodes: count(effort.nodes) }), ...by, SEARCHED];
}

const lipValues = (l: Mobility["lips"][number]): Phrase["values"] => ({
  end: text(l.end),
  from: degrees(l.from, 3),
  to: degrees(l.to, 3),
  host: thing(l.host),
});

interface Went extends Pick<Judged, "touches"> {
  readonly locked: boolean;
  readonly how: How | undefined;
  readonly leaving: number;
}

/** How a bar goes in. */
export function whyGoes(
  { locked, how, leaving, touches }: Went,
  fouls: Judged["fouls"],
  past: readonly Past[],
  poses: readonly Pose[],
  reach: number,
): readonly Phrase[] {
  const parts: Phrase[] = [];
  if (leaving > 0) {
    parts.push(phrase(locked ? "fit-held" : "fit-no-free-way"));
    parts.push(phrase("fit-sprung", { how: phrase(`fit-${how ?? "moved"}`), leaving: mm(leaving) }));
  } else if (how !== undefined)
    parts.push(phrase(touches ? "fit-not-straight" : "fit-not-straight-free", { how: phrase(`fit-${how}`) }));
  else if (poses.length === 2) parts.push(phrase("fit-straight", { way: along(poses[0]) }));
  else if (poses.length > 1) parts.push(phrase("fit-at-last", { way: along(poses[poses.length - 2]) }));
  if (poses.length > 2) {
    const total = poses.slice(1).reduce((sum, p, i) => sum + travel(poses[i]!, p, reach), 0);
    parts.push(phrase("fit-moves", { count: count(poses.length - 1), total: mm(total) }));
  }
  if (touches) parts.push(phrase("fit-touches", { id: thing(touches.id), by: mm(touches.by) }));
  for (const f of fouls) parts.push(phrase("fit-touches-at-seat", { id: thing(f.id), by: mm(f.by) }));
  return [...parts, pastPhrase(past)];
}

const along = (pose: Pose | undefined) => ({ way: pose ? neg(pose.at) : ([0, 0, 0] as Vec) });

/**
 * What there was to go past: "only bars and plates; no body entered" where the job has no body. The floor is under every
 * car and is not named there.
 */
export function pastPhrase(past: readonly Past[]): Phrase {
  const hasBody = past.includes("body");
  const named = past.filter((p) => hasBody || p !== "floor").map((p) => phrase(`fit-past-${p}`));
  if (hasBody) return phrase("fit-past", { things: list(named) });
  return named.length === 0 ? phrase("fit-past-nothing") : phrase("fit-past-only", { things: list(named) });
}
