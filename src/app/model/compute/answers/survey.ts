import { type Plan, surveyOf } from "../../../../core/plan/index.ts";
import type { Survey } from "../../../../core/survey/index.ts";

/** Where the car's points are by its readings; undefined where there are neither. */
export type SurveyAsk = Readonly<Record<never, never>>;

/** Points without readings are surveyed too: what is then said of them is what would fix them. */
export const survey = (plan: Plan, _ask: SurveyAsk): Survey | undefined => surveyOf(plan);
