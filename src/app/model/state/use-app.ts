import { createContext, useContext } from "react";
import { useStore } from "zustand";
import type { App, AppActions, AppState } from "./state.ts";

/** The one app of the page, given to all that is below it. */
export const AppContext = createContext<App | undefined>(undefined);

export function useAppItself(): App {
  const app = useContext(AppContext);
  if (!app) throw new Error("no app stands above this part");
  return app;
}

/** A part of the state; the component renders again when that part is another. */
export function useApp<T>(select: (state: AppState) => T): T {
  return useStore(useAppItself().state, select);
}

export const useActions = (): AppActions => useAppItself().do;
