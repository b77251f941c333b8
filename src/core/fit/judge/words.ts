import { len, neg, type Vec } from "../../space/index.ts";
import type { Mobility } from "../joint/index.ts";
import type { Pose } from "../scene/index.ts";
import { travel } from "../way/index.ts";
import type { Effort, Joint, Judged, Past } from "./judged.ts";

const list = (ids: readonly string[]): string =>
  ids.length < 2 ? ids.join("") : `${ids.slice(0, -1).join(", ")} and ${ids[ids.length - 1]}`;

/**
 * A length (mm) in a sentence whose reader is not known here: whoever prints the sentence puts it in the job's own
 * unit (`inUnit`).
 */
export const lengthHere = (mm: number): string => `{${Math.round(mm * 1e4) / 1e4} mm}`;

/** A sentence with its lengths written for the reader at hand. */
export const inUnit = (said: string, write: (mm: number) => string): string =>
  said.replace(/\{(-?\d+(?:\.\d+)?(?:e-?\d+)?) mm\}/g, (_, mm: string) => write(Number(mm)));

const SEARCHED = "a search result, not a proof";

export const whyMissing = (hosts: readonly string[]): string =>
  `lands on ${list(hosts)}, which ${hosts.length > 1 ? "are" : "is"} not in yet`;

export const whyFouled = ({ id, by }: Judged["fouls"][number]): string =>
  `at its own seat it runs ${lengthHere(by)} into ${id}`;

export const whyUnchecked = (met: string, by: number): string =>
  `a way was found, but its check met ${met} by ${lengthHere(by)}; taken as none`;

/** Why no way was found: what was tried, and whether that is a proof. */
export function whyNot(
  mobility: Mobility,
  joint: Joint,
  proved: boolean,
  loose: boolean,
  blockedBy: readonly string[],
  effort: Effort,
): string {
  const by = blockedBy.length > 0 ? `; ${list(blockedBy)} stood in the way` : "";
  if (joint === "locked" && !loose) {
    const lips = mobility.lips.map((l) => `end ${l.end} ${l.from}° to ${l.to}° on ${l.host}`).slice(0, 4);
    const held = lips.length > 0 ? ` (${list(lips)})` : "";
    const proof = proved
      ? "its joints hold it, by proof, for hosts that do not give"
      : `its joints hold it: ${SEARCHED}`;
    return `${proof}${held}; up to ${lengthHere(effort.most)} of springing a side did not free it${by}: ${SEARCHED}`;
  }
  if (!loose) return `no straight way nor small move left its joints${by}: ${SEARCHED}`;
  return `out of its joints no way led outside in a search of up to ${effort.nodes} poses${by}: ${SEARCHED}`;
}

interface Went extends Pick<Judged, "touches"> {
  readonly locked: boolean;
  readonly how: string | undefined;
  readonly leaving: number;
}

/** How a bar goes in. */
export function whyGoes(
  { locked, how, leaving, touches }: Went,
  fouls: Judged["fouls"],
  past: readonly Past[],
  poses: readonly Pose[],
  reach: number,
): string {
  const parts: string[] = [];
  if (leaving > 0) {
    const proof = locked ? "its joints hold it" : "its joints give it no free way that was found";
    parts.push(
      `${proof}; ${how ?? "moved out"}, it goes in with ${lengthHere(leaving)} of springing a side (an upper bound)`,
    );
  } else if (how !== undefined) parts.push(`not straight: ${how}, it goes in${touches ? "" : " freely"}`);
  else if (poses.length === 2) parts.push(`goes in straight, ${inWords(neg(poses[0]!.at))}`);
  else if (poses.length > 1) {
    parts.push(`at the last goes in ${inWords(neg(poses[poses.length - 2]!.at))}`);
  }
  if (poses.length > 2) {
    const total = poses.slice(1).reduce((sum, p, i) => sum + travel(poses[i]!, p, reach), 0);
    parts.push(`${poses.length - 1} moves, ${lengthHere(total)} in all`);
  }
  if (touches) parts.push(`touches ${touches.id} by ${lengthHere(touches.by)}: a stroke of a file`);
  for (const f of fouls)
    parts.push(`at its seat it touches ${f.id} by ${lengthHere(f.by)}: dress that off, or cope to both`);
  parts.push(pastInWords(past));
  return parts.join("; ");
}

const NAMES: Readonly<Record<Past, string>> = {
  bars: "bars",
  plates: "plates",
  body: "the body",
  driver: "the driver's room",
  floor: "the floor",
};

/**
 * What there was to go past: "only bars and plates; no body entered" where the job has no body. The floor is under every
 * car and is not named there.
 */
export function pastInWords(past: readonly Past[]): string {
  const hasBody = past.includes("body");
  const named = past.filter((p) => hasBody || p !== "floor").map((p) => NAMES[p]);
  if (hasBody) return `past ${list(named)}`;
  return named.length === 0
    ? "nothing to go past; no body entered"
    : `past only ${list(named)}; no body entered`;
}

/** A direction of the car in words: "up and rearward", "to the left". Parts under a third of it are not named. */
export function inWords(v: Vec): string {
  const size = len(v) || 1;
  const names: readonly (readonly [string, string])[] = [
    ["forward", "rearward"],
    ["to the left", "to the right"],
    ["up", "down"],
  ];
  return ([2, 0, 1] as const)
    .filter((k) => Math.abs(v[k]) / size > 0.34)
    .sort((a, b) => Math.abs(v[b]) - Math.abs(v[a]))
    .map((k) => names[k]![v[k] > 0 ? 0 : 1])
    .join(" and ");
}
