import { type AppActions, useActions } from "../model/state/index.ts";

/** Under this key it is kept whether the row of tags is shown on the Wall. */
export const WALL_TAGS = "wall tags";

/** Walks to the wall, to the row of tags. */
export function openTags(act: AppActions): void {
  act.setStep(WALL_TAGS, 1);
  act.goTo("wall");
}

/** Under this key it is kept which part of the Car station is shown, by its place in the row of parts. */
export const CAR_PART = "car part";
const WAY = 4;

/** Walks to the car, to the way of the bar in hand. */
export function useShowWay(): () => void {
  const act = useActions();
  return () => {
    act.setStep(CAR_PART, WAY);
    act.goTo("car");
  };
}
