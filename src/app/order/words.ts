import { BY_HAND, isByGap } from "../../core/fit/index.ts";
import { type FitWords, goesIn, goesInReasons, goesInSays, SEARCHED, sayForce } from "../../words/index.ts";
import { sayNeeds } from "./commands.ts";
import type { Look } from "./looking.ts";
import type { Cure, Tag } from "./row.ts";

/** What a tag says in a few words; what was found before the last change is `was`, and is shown struck. */
export interface TagSays {
  readonly word: string;
  readonly was?: string;
  /** Why it does not go in. */
  readonly why?: string;
  readonly marks: readonly string[];
}

export function tagSays(tag: Tag, w: FitWords): TagSays {
  const marks = marksOf(tag, w);
  if (tag.state === "placeless") return { word: "has no place yet", marks };
  if (tag.state === "unseen")
    return {
      word: "not looked at",
      ...(tag.judged ? { was: goesIn(tag.judged, w) } : {}),
      marks,
    };
  const word = goesIn(tag.judged!, w);
  const past = tag.state === "free" && !tag.judged!.past.includes("body") ? "no body entered" : undefined;
  if (past) return { word, marks: [past, ...marks] };
  return { word, ...(tag.state === "no" ? { why: goesInSays(tag.judged!, tag.missing, w) } : {}), marks };
}

function marksOf(tag: Tag, w: FitWords): readonly string[] {
  const firsts = (["A", "B"] as const).flatMap((end) => tag.weld.find((m) => m.end === end) ?? []);
  const both = firsts.length === 2 && firsts[0]!.before === firsts[1]!.before;
  const weld = both
    ? [`weld A and B before ${w.called(firsts[0]!.before)}`]
    : firsts.map((m) => `weld ${m.end} before ${w.called(m.before)}`);
  return [...(tag.needs ? [sayNeeds(tag.needs)] : []), ...weld];
}

/** "Hang it before Dash bar" */
export const cureSays = (cure: Cure, w: FitWords): string =>
  cure.before === null ? "Hang it last" : `Hang it before ${w.called(cure.before)}`;

/** The fourth question: figure, sentence, reasons. */
export interface GoesInSays {
  readonly figure: string;
  readonly says: string;
  readonly reasons: readonly string[];
}

export function answerSays(tag: Tag | undefined, w: FitWords): GoesInSays {
  if (!tag || tag.state === "placeless")
    return { figure: "…", says: "it has no place in the car yet", reasons: [] };
  const { judged } = tag;
  if (tag.state === "unseen" || !judged)
    return {
      figure: "?",
      says: judged ? "not looked at since the last change" : "not looked at in this order",
      reasons: [
        ...(judged ? [`Before the last change: ${goesIn(judged, w)}.`] : []),
        `It is number ${tag.n} in the order of fitting.`,
      ],
    };
  const says = goesInSays(judged, tag.missing, w);
  const force = judged.force === undefined ? "" : `, ${sayForce(judged.force)}`;
  const byGap = isByGap(judged);
  const first = byGap ? "With a gap at each joint" : `Sprung${force}`;
  return {
    figure: {
      free: "free",
      touches: w.fine(judged.touches?.by ?? 0),
      spring: w.fine(byGap ? judged.gap : judged.spring),
      no: "no",
    }[tag.state],
    says:
      tag.state === "touches"
        ? `Touching: ${says.charAt(0).toLowerCase()}${says.slice(1)}`
        : tag.state === "spring"
          ? `${first}: ${says.charAt(0).toLowerCase()}${says.slice(1)}`
          : says,
    reasons: [
      `Number ${tag.n} in the order of fitting, past what is tacked before it.`,
      ...goesInReasons(judged, w),
      ...(tag.state === "no" ? [cureReason(tag, w)] : []),
    ],
  };
}

function cureReason({ cure }: Tag, w: FitWords): string {
  if (cure === undefined) return "Whether another place in the order cures it is not known yet.";
  if (cure === null) return `No earlier place in this order lets it in (${SEARCHED}).`;
  return `${cureSays(cure, w)}, and it goes in.`;
}

/** Whether a force, or that it is more than hands can do, is shown of any of these. */
export const hasForce = (tags: readonly Tag[]): boolean =>
  tags.some((t) => t.judged !== undefined && (t.judged.goesIn === "spring" || t.judged.force !== undefined));

/** How the whole row stands, in one line. */
export function rowSays({ row, run }: Look): string {
  const solid = row.filter((t) => t.state !== "placeless");
  const seen = solid.filter((t) => t.state !== "unseen");
  const bad = solid.filter((t) => t.state === "no").length;
  if (solid.length === 0) return "no bars yet";
  if (run?.what === "find") return `looking for an order${run.at ? `: ${run.at} comes out` : ""}`;
  if (run) return `${seen.length} of ${solid.length} looked at${run.at ? `; now ${run.at}` : ""}`;
  const noes = bad === 0 ? "" : `${bad} of ${solid.length} ${bad === 1 ? "does" : "do"} not go in`;
  if (seen.length === 0) return "not looked at yet";
  if (seen.length < solid.length)
    return `${seen.length} of ${solid.length} looked at${noes ? `; ${noes}` : ""}`;
  return noes === "" ? `all ${solid.length} go in${sprungSays(solid)}` : noes;
}

/** Gaps and springing are said, and where that is more than hands give it is no way in to count on. */
function sprungSays(row: readonly Tag[]): string {
  const all = row.filter((t) => t.state === "spring");
  const gaps = all.filter((t) => t.judged && isByGap(t.judged)).length;
  const sprung = all.length - gaps;
  const hard = all.filter((t) => (t.judged?.force ?? 0) > BY_HAND).length - gaps;
  const says = [
    ...(sprung > 0 ? [`${sprung} of them sprung${hard > 0 ? `, ${hard} by more than hands give` : ""}`] : []),
    ...(gaps > 0 ? [`${gaps} of them with a gap`] : []),
  ];
  return says.map((s) => `, ${s}`).join("");
}
