import type { Needs } from "../../core/job/index.ts";
import { ORDER_COMMANDS, TAG } from "../../words/index.ts";
import { type Command, changeBar, setValue } from "../model/document/index.ts";

/**
 * Commands of the order of fitting. Each is given the order as the row shows it, since a job need not say one, and
 * writes the whole of it; the bars that the job leaves out are then in it too.
 */

/** The order with one bar taken out and moved before another, or last. Moved before itself it stays. */
export function movedBefore(order: readonly string[], id: string, before: string | null): readonly string[] {
  if (id === before) return order;
  const rest = order.filter((other) => other !== id);
  const at = before === null ? rest.length : rest.indexOf(before);
  return at < 0 ? order : [...rest.slice(0, at), id, ...rest.slice(at)];
}

export function moveBefore(
  order: readonly string[],
  id: string,
  before: string | null,
  called: (id: string) => string,
): Command {
  const name =
    before === null ? ORDER_COMMANDS.last(called(id)) : ORDER_COMMANDS.before(called(id), called(before));
  return setValue(["order"], movedBefore(order, id, before), name);
}

/** One place earlier (-1) or later (1); at the end of the row it stays. */
export function moveOne(
  order: readonly string[],
  id: string,
  by: -1 | 1,
  called: (id: string) => string,
): Command {
  const i = order.indexOf(id);
  const before = by < 0 ? (order[i - 1] ?? id) : i + 1 >= order.length ? id : (order[i + 2] ?? null);
  const name = by < 0 ? ORDER_COMMANDS.earlier(called(id)) : ORDER_COMMANDS.later(called(id));
  return setValue(["order"], movedBefore(order, id, before), name);
}

/** All tags at once, as the program found them. */
export const takeFound = (order: readonly string[]): Command =>
  setValue(["order"], order, ORDER_COMMANDS.found);

/** What must hold while a bar goes in. */
export const setNeeds = (id: string, needs: Needs | undefined, label: string): Command =>
  changeBar(id, { needs }, ORDER_COMMANDS.needs(label, TAG.needs[needs ?? "either"]));
