import type { SawCut } from "../../../../core/cope/index.ts";
import type { End } from "../../../../core/job/index.ts";
import { rad } from "../../../../core/numeric/index.ts";
import { type Felt, figuredJoint, type Plan } from "../../../../core/plan/index.ts";
import { type GapsRead, type NextCut, nextCut, readGaps } from "../../../../core/trestles/index.ts";
import { writerFor } from "../../../../core/units/index.ts";
import { sayGapProblem } from "../../../../words/index.ts";

/** The next cut of one end, from the gaps that the job keeps as felt round it. */
export interface GapsAsk {
  readonly bar: string;
  readonly end: End;
}

export type GapsReply =
  /** There is no joint here to feel gaps at. */
  | { readonly is: "no joint"; readonly why: Extract<Felt, { ok: false }>["why"] }
  /** The cut that this end asks for; nothing was felt yet. */
  | { readonly is: "empty"; readonly cut: SawCut }
  /** No answer from these gaps, and what would give one. */
  | { readonly is: "no answer"; readonly cut: SawCut; readonly why: string }
  | {
      readonly is: "read";
      readonly cut: SawCut;
      /** The cut that was made. */
      readonly made: SawCut;
      readonly read: GapsRead;
      readonly next: NextCut;
      /** Indices of the gaps that count, in the job's list. */
      readonly counted: readonly number[];
    };

/** A feeler at a joint is held at a mark by hand (mm, one standard deviation): what D1 of the checks assumes. */
const FEELER = 0.25;

export function gaps(plan: Plan, { bar, end }: GapsAsk): GapsReply {
  const figured = figuredJoint(plan, bar, end);
  if (!figured.ok) return { is: "no joint", why: figured.why };
  const { joint } = figured;
  const felt = plan.job.made?.[bar]?.gaps[end];
  const counted = (felt?.read ?? []).flatMap((r, i) => (r.struck ? [] : [i]));
  if (!felt || counted.length === 0) return { is: "empty", cut: joint.cut };
  const made: SawCut = {
    ...joint.cut,
    notch: rad(felt.cut),
    clock: joint.cut.clock + rad(felt.roll),
    centre: joint.cut.centre - felt.outboard,
  };
  const found = readGaps(
    joint,
    made,
    counted.flatMap((i) => felt.read[i] ?? []),
    { sd: FEELER },
  );
  if (!found.ok)
    return { is: "no answer", cut: joint.cut, why: sayGapProblem(found.problem, writerFor(plan.job.show)) };
  const next = nextCut(joint, made, found.read, { outboard: felt.outboard, gap: plan.job.shop.gap });
  return { is: "read", cut: joint.cut, made, read: found.read, next, counted };
}
