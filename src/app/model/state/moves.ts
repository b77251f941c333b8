import type { StoreApi } from "zustand/vanilla";
import { EMPTY_MOVES, type Moves, movedBetween } from "./moved.ts";
import type { AppState } from "./state-types.ts";

export const NO_MOVES: Moves = { bars: EMPTY_MOVES };

/** Keeps `moves` from the first results on; an edit that moved nothing says so by an empty list. */
export function keepMoves(state: StoreApi<AppState>): void {
  let settled = state.getState().results;
  let job = state.getState().job?.entry.id;
  state.subscribe(({ results, job: now }) => {
    if (results === settled || results.computing || results.document !== now?.document) return;
    if (results.document === settled.document) return;
    const isSame = now?.entry.id === job && settled.document !== undefined;
    const before = settled;
    settled = results;
    job = now?.entry.id;
    const name = now?.undo === undefined ? {} : { name: now.undo };
    state.setState({ moves: isSame ? { ...name, bars: movedBetween(before, results) } : NO_MOVES });
  });
}
