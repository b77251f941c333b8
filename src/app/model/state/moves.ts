import type { StoreApi } from "zustand/vanilla";
import type { Did } from "../document/index.ts";
import { EMPTY_MOVES, type Moves, movedBetween } from "./moved.ts";
import { type AppState, NO_CHANGE } from "./state-types.ts";

export const NO_MOVES: Moves = { bars: EMPTY_MOVES };

/**
 * Keeps `moves` from the first results on: what the last step moved, under its own name. A step taken back has no name
 * and nothing to tell; what is no step at all (other units) leaves them as they are. Those of another device have none.
 */
export function keepMoves(state: StoreApi<AppState>): void {
  let settled = state.getState().results;
  let job = state.getState().job?.entry.id;
  let told: Did | undefined;
  state.subscribe(({ results, job: now }) => {
    if (results === settled || results.computing || results.document !== now?.document) return;
    if (!now || results.document === settled.document) return;
    const isSame = now.entry.id === job && settled.document !== undefined;
    const before = settled;
    const { did } = now;
    const isTold = isSame && did === told;
    settled = results;
    job = now.entry.id;
    told = did;
    if (isTold) return;
    if (!isSame || did.is === "opened" || did.is === "undo") {
      state.setState({ moves: { ...NO_MOVES, of: did } });
      return;
    }
    const bars = movedBetween(before, results);
    if (did.is !== "others") state.setState({ moves: { name: did.name, of: did, bars } });
    else if (bars.length > 0) state.setState({ moves: { of: did, bars }, changed: NO_CHANGE });
    // a mark made at another device leaves what this one was told in its place
    else state.setState(({ moves }) => ({ moves: { ...moves, of: did } }));
  });
}
