import { ellipseOf } from "./ellipse.ts";
import type { Named } from "./names.ts";
import type { Seen } from "./project.ts";
import { type Choice, endOf, type Placed } from "./thin.ts";
import type { ViewPoint } from "./types.ts";

/** A name as it is in the page: where it points at, and from there its leader and its word. */
export interface Word {
  readonly whole: HTMLElement;
  readonly leader: HTMLElement;
  readonly word: HTMLElement;
  /** Of `word` (CSS pixels). */
  width: number;
  height: number;
  choice?: Choice;
}

/** A leader shorter than this says no more than the name's place does. */
const LEADER = 9;
/** Half of the least ring round a point, so that it shows. */
const LEAST = 4.5;

/** A name, not in the page yet. */
export function wordOf(of: Named): Word {
  const whole = document.createElement("div");
  const leader = document.createElement("b");
  const word = document.createElement("span");
  word.textContent = of.says;
  whole.dataset.kind = of.kind;
  whole.toggleAttribute("data-in-hand", of.isInHand);
  whole.dataset.away = "";
  whole.append(leader, word);
  return { whole, leader, word, width: 0, height: 0 };
}

/** Where it is in the picture now; the leader and the word keep to it. */
export function show(made: Word, { share, dx, dy, anchor, box }: Placed, isAnew: boolean): void {
  const { whole, leader, word } = made;
  whole.toggleAttribute("data-away", false);
  whole.style.transform = `translate(${Math.round(anchor.x)}px, ${Math.round(anchor.y)}px)`;
  if (!isAnew) return;
  made.choice = { share, dx, dy };
  word.style.transform = `translate(${Math.round(dx)}px, ${Math.round(dy)}px)`;
  const end = endOf(anchor, box);
  const [x, y] = [end.x - anchor.x, end.y - anchor.y];
  const length = Math.hypot(x, y);
  leader.style.width = `${length < LEADER ? 0 : length.toFixed(1)}px`;
  leader.style.transform = `rotate(${Math.atan2(y, x).toFixed(3)}rad)`;
}

/** The ring round a point, as large as what it is uncertain by. */
export function rings(
  ring: HTMLElement,
  seen: Seen | undefined,
  covariance: NonNullable<ViewPoint["covariance"]>,
  axes: Parameters<typeof ellipseOf>[1],
): void {
  ring.toggleAttribute("data-away", !seen);
  if (!seen) return;
  const { major, minor, turn } = ellipseOf(covariance, axes);
  const [a, b] = [Math.max(LEAST, major / seen.pixel), Math.max(LEAST, minor / seen.pixel)];
  ring.style.width = `${(2 * a).toFixed(1)}px`;
  ring.style.height = `${(2 * b).toFixed(1)}px`;
  ring.style.transform = `translate(${(seen.x - a).toFixed(1)}px, ${(seen.y - b).toFixed(1)}px) rotate(${-turn}rad)`;
}
