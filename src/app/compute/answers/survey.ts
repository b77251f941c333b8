import type { Plan } from "../../../core/plan/index.ts";
import type { Survey } from "../../../core/survey/index.ts";

/** Where the car's points are by its readings; undefined where there are none. */
export type SurveyAsk = Readonly<Record<never, never>>;

export const survey = (plan: Plan, _ask: SurveyAsk): Survey | undefined => plan.places.survey;
