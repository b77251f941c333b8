import { useStore } from "zustand";
import { createStore, type StoreApi } from "zustand/vanilla";
import { recall, remember } from "../../kit/index.ts";
import { type App, useAppItself } from "../../model/state/index.ts";

export const SORTS = ["job", "order", "progress", "place"] as const;
export type Sort = (typeof SORTS)[number];

/** How the bars are looked through; of this page, the sort of this device. */
interface RailState {
  readonly sort: Sort;
  readonly find: string;
  /** Boxes beside the bars. */
  readonly isMarking: boolean;
  /** The whole list over the page, where there is no room beside it; "typing": begun by its key. */
  readonly sheet: "no" | "open" | "typing";
  /** The bars as they are shown. */
  readonly shown: readonly string[];
}

const SORT = "rail-sort";

function made(app: App): StoreApi<RailState> {
  const kept = recall(SORT);
  const rail = createStore<RailState>(() => ({
    sort: SORTS.find((sort) => sort === kept) ?? "job",
    find: "",
    isMarking: false,
    sheet: "no",
    shown: [],
  }));
  app.state.subscribe((now, before) => {
    if (now.job?.entry.id !== before.job?.entry.id)
      rail.setState({ find: "", isMarking: false, sheet: "no" });
  });
  return rail;
}

export const railOf = (app: App): StoreApi<RailState> => app.own(made);

export function sortBy(app: App, sort: Sort): void {
  remember(SORT, sort);
  railOf(app).setState({ sort });
}

/** A part of how the bars are looked through; the component renders again when that part is another. */
export const useRail = <T>(select: (rail: RailState) => T): T => useStore(railOf(useAppItself()), select);

/** Boxes beside the bars, or none: then nothing is marked that nobody sees. */
export function setMarking(app: App, isMarking: boolean): void {
  railOf(app).setState({ isMarking });
  if (!isMarking) app.do.mark(app.state.getState().marked, false);
}

/** With Ctrl or Shift it is marked, else taken in hand; the bar in hand is put down. */
export function pick(
  app: App,
  id: string,
  keys: { readonly ctrlKey: boolean; readonly metaKey: boolean; readonly shiftKey: boolean },
): void {
  const rail = railOf(app);
  const { inHand, marked } = app.state.getState();
  if (keys.ctrlKey || keys.metaKey || keys.shiftKey) {
    const { shown } = rail.getState();
    const [from, to] = [shown.indexOf(marked.at(-1) ?? inHand ?? id), shown.indexOf(id)].sort(
      (a, b) => a - b,
    );
    const range = from === undefined || to === undefined || from < 0 ? [id] : shown.slice(from, to + 1);
    rail.setState({ isMarking: true });
    app.do.mark(keys.shiftKey ? range : [id], keys.shiftKey || !marked.includes(id));
    return;
  }
  app.do.take(id === inHand ? null : id);
  // the page under the sheet shows no search
  if (rail.getState().sheet !== "no") rail.setState({ sheet: "no", find: "" });
}

/** The bar before or after the one in hand, as they are shown; none in hand: the first or the last. */
export function neighbour(app: App, by: 1 | -1): string | undefined {
  const { shown } = railOf(app).getState();
  const { inHand } = app.state.getState();
  const at = inHand === null ? -1 : shown.indexOf(inHand);
  return at < 0 ? shown.at(by > 0 ? 0 : -1) : at + by < 0 ? undefined : shown[at + by];
}
