import { useSyncExternalStore } from "react";
import type { App } from "../state.ts";
import { EMPTY_MOVES, type Moved, movedBetween } from "../stations/moved.ts";

/** What the last edit changed, and what that edit was called. */
export interface Moves {
  readonly name?: string;
  readonly bars: readonly Moved[];
}

const kept = new WeakMap<App, { get(): Moves; subscribe(tell: () => void): () => void }>();

/** Watches the app from its first results on; an edit that moved nothing says so by an empty list. */
function movesOf(app: App) {
  const have = kept.get(app);
  if (have) return have;
  let moves: Moves = { bars: EMPTY_MOVES };
  let settled = app.state.getState().results;
  let job = app.state.getState().job?.entry.id;
  const listeners = new Set<() => void>();
  app.state.subscribe(({ results, job: now }) => {
    if (results === settled || results.computing || results.document !== now?.document) return;
    const isSame = now?.entry.id === job && settled.document !== undefined;
    if (results.document === settled.document) return;
    moves = isSame
      ? { ...(now?.undo === undefined ? {} : { name: now.undo }), bars: movedBetween(settled, results) }
      : { bars: EMPTY_MOVES };
    settled = results;
    job = now?.entry.id;
    for (const tell of listeners) tell();
  });
  const made = {
    get: () => moves,
    subscribe(tell: () => void) {
      listeners.add(tell);
      return () => listeners.delete(tell);
    },
  };
  kept.set(app, made);
  return made;
}

export function useMoves(app: App): Moves {
  const moves = movesOf(app);
  return useSyncExternalStore(moves.subscribe, moves.get);
}
