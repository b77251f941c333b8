import { useSyncExternalStore } from "react";
import { useAppItself } from "../model/state/index.ts";
import { type Look, type Looking, lookingOf } from "./looking.ts";

/** The row of tags of the job in hand, and what can be asked of it. */
export function useLook(): readonly [Look, Looking] {
  const looking = lookingOf(useAppItself());
  return [useSyncExternalStore(looking.subscribe, looking.get), looking];
}
