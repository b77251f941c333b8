import type { KeyId } from "../../../words/index.ts";
import { type App, goToPage, STATIONS } from "../../model/state/index.ts";
import { neighbour, railOf, setMarking } from "./rail-state.ts";

/** One line of the list of keys, and what its keys do. */
export interface Keys {
  readonly id: KeyId;
  /** Each as it is pressed: "Ctrl+Shift+Z", "/"; Ctrl is also Cmd. */
  readonly keys: readonly string[];
  /** Without it the keys work where the focus is, and are only listed here. `at`: which of the keys. False: not for it. */
  readonly does?: (app: App, at: number) => unknown;
}

/** Every key of the program: what happens and what the list under "?" shows are both read from here. */
export const KEYS: readonly Keys[] = [
  { id: "undo", keys: ["Ctrl+Z"], does: (app) => app.do.undo() },
  { id: "redo", keys: ["Ctrl+Shift+Z", "Ctrl+Y"], does: (app) => app.do.redo() },
  { id: "print", keys: ["Ctrl+P"], does: () => goToPage("print") },
  { id: "find", keys: ["/"], does: find },
  { id: "walk", keys: ["↑", "↓", "Home", "End"] },
  { id: "take", keys: ["Enter"] },
  { id: "several", keys: ["Ctrl+click", "Shift+click"] },
  { id: "beside", keys: ["[", "]"], does: (app, at) => step(app, at === 0 ? -1 : 1) },
  {
    id: "stations",
    keys: STATIONS.map((_, i) => `${i + 1}`),
    does: (app, at) => STATIONS[at] !== undefined && app.do.goTo(STATIONS[at]),
  },
  { id: "steps", keys: ["←", "→"] },
  { id: "close", keys: ["Escape"], does: close },
  { id: "list", keys: ["?"], does: help },
];

/** The list's own button is in the head of every page. */
function help(): void {
  document.querySelector<HTMLElement>("[data-help]")?.click();
}

function find(app: App): void {
  const field = document.querySelector<HTMLInputElement>("input[data-find]");
  if (field) field.select();
  else railOf(app).setState({ sheet: "typing" });
}

function step(app: App, by: 1 | -1): boolean {
  const to = neighbour(app, by);
  if (to !== undefined) app.do.take(to);
  return to !== undefined;
}

/** What is open is closed first, then the search is cleared, then the marks go, then the bar is put down. */
function close(app: App): boolean {
  // what can be closed, or left, by a button of its own says so there; one at most is shown at a time
  const open = [...document.querySelectorAll<HTMLElement>("[data-escape]")].at(-1);
  const rail = railOf(app).getState();
  if (open) open.click();
  else if (rail.find !== "") railOf(app).setState({ find: "" });
  else if (rail.isMarking) setMarking(app, false);
  else if (app.state.getState().inHand !== null) app.do.take(null);
  else return false;
  return true;
}

/** What was pressed, as the table writes it. */
export function pressed(event: KeyboardEvent): string {
  // some boards write [ ] and / by AltGr, which says Ctrl and Alt too
  const isWritten = event.getModifierState("AltGraph") || (event.altKey && event.ctrlKey);
  const isCtrl = (event.ctrlKey || event.metaKey) && !isWritten;
  // letters of other alphabets are read by the place of the key
  const letter = /^Key([A-Z])$/.exec(event.code)?.[1];
  const key = /^[a-z]$/i.test(event.key) ? event.key.toUpperCase() : isCtrl && letter ? letter : event.key;
  if (!isCtrl) return event.altKey && !isWritten ? (/^Digit(\d)$/.exec(event.code)?.[1] ?? "") : key;
  return `Ctrl+${event.shiftKey ? "Shift+" : ""}${key}`;
}

/** Where one types a key is a letter, and under a sheet the page has none. */
const isElsewhere = ({ target }: KeyboardEvent): boolean =>
  document.querySelector("dialog[open], :popover-open") !== null ||
  (target instanceof HTMLElement &&
    (target.isContentEditable || target.matches("input:not([type=checkbox]), textarea, select")));

/** Answers the keys of the shop until it is left. */
export function listenToKeys(app: App): () => void {
  const onKey = (event: KeyboardEvent): void => {
    if (event.defaultPrevented || isElsewhere(event)) return;
    const key = pressed(event);
    const line = KEYS.find(({ keys, does }) => does && keys.includes(key));
    if (line?.does && line.does(app, line.keys.indexOf(key)) !== false) event.preventDefault();
  };
  window.addEventListener("keydown", onKey);
  return () => window.removeEventListener("keydown", onKey);
}
