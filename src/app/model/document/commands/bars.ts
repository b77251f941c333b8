import { BESIDE_BARS, type Progress } from "../../../../core/job/index.ts";
import {
  at,
  entries,
  isObject,
  type JobDocument,
  type Json,
  type JsonObject,
  withEntry,
} from "../../../../shared/index.ts";
import { REFUSED, STEP } from "../../../../words/index.ts";
import { type Command, type Dependent, done, refused } from "../command.ts";
import { calledOf, dependentsOf, thingsOf } from "../names.ts";
import { leftStanding, type StandsAt, withoutCrowd } from "./leave.ts";
import { addThing, changeThing, has, inUse, missing, withThing } from "./things.ts";

const labelOf = (bar: Json): string | undefined => {
  const label = at(bar, ["label"]);
  return typeof label === "string" ? label : undefined;
};

export const addBar = (id: string, bar: JsonObject): Command =>
  addThing("bar", id, bar, STEP.addBar(labelOf(bar) ?? id));

export const changeBar = (
  id: string,
  keys: Readonly<Record<string, Json | undefined>>,
  name?: Command["name"],
): Command =>
  changeThing("bar", id, keys, name ?? ((document) => STEP.changeBar(calledOf(document, "bar", id))));

/** A copy that runs where the original runs, not made yet; change its path next. */
export function duplicateBar(id: string, copyId: string, label?: string): Command {
  return {
    name: (document) => STEP.duplicate(calledOf(document, "bar", id)),
    edit(document) {
      const bar = thingsOf(document, "bar")[id];
      if (!has(document, "bar", id) || !isObject(bar)) return missing("bar", id);
      const copy = withEntry(bar, "progress", undefined);
      return addBar(copyId, label === undefined ? copy : { ...copy, label }).edit(document);
    },
  };
}

/** The bar's mirror image about the car's centre plane, which follows whatever its original does. */
export function mirrorBar(id: string, mirrorId: string, label?: string): Command {
  return {
    name: (document) => STEP.mirror(calledOf(document, "bar", id)),
    edit(document) {
      if (!has(document, "bar", id)) return missing("bar", id);
      const original = at(document, ["bars", id, "mirrorOf"]);
      if (typeof original === "string")
        return refused(REFUSED.isMirror(calledOf(document, "bar", id), calledOf(document, "bar", original)));
      const twin = entries(thingsOf(document, "bar")).find(([, bar]) => at(bar, ["mirrorOf"]) === id);
      if (twin)
        return refused(REFUSED.hasMirror(calledOf(document, "bar", id), calledOf(document, "bar", twin[0])));
      return addBar(mirrorId, { ...(label === undefined ? {} : { label }), mirrorOf: id }).edit(document);
    },
  };
}

/** How far a bar has come in the shop. */
export const setProgress = (id: string, progress: Progress): Command =>
  changeBar(id, { progress: progress === "laid out" ? undefined : progress }, (document) =>
    STEP.progress(calledOf(document, "bar", id), progress),
  );

/**
 * Takes a bar out. `others` says what becomes of the bars that stand or hang on it: "keep" refuses as long as there
 * are any and names them; "delete" takes them out as well, and theirs; "leave" keeps them where they are, as
 * paths of their own with a plain end there (`standsAt` knows where that is). A bar that was merely coped to it too
 * just loses that.
 */
export function deleteBar(
  id: string,
  others: "keep" | "delete" | "leave" = "keep",
  standsAt?: StandsAt,
): Command {
  return {
    name: (document) => STEP.deleteBar(calledOf(document, "bar", id), others === "delete"),
    edit(document) {
      if (!has(document, "bar", id)) return missing("bar", id);
      const all = dependentsOf(document, "bar", id);
      if (others === "keep" && all.length > 0)
        return refused(inUse(document, calledOf(document, "bar", id), all), all);
      if (others === "leave") return leaveOthers(document, id, all, standsAt);
      const gone = others === "delete" ? withDependents(document, id) : [id];
      return done(gone.reduce((doc, bar) => without(doc, bar), document));
    },
  };
}

/** The bar, and whatever lands on, follows or mirrors one of them. */
export function withDependents(document: JobDocument, id: string): readonly string[] {
  const gone = [id];
  // a list hands out what is added while it is walked
  for (const one of gone) {
    for (const { bar, loose } of dependentsOf(document, "bar", one)) {
      if (!loose && !gone.includes(bar)) gone.push(bar);
    }
  }
  return gone;
}

const without = (document: JobDocument, id: string): JobDocument =>
  withThing(withoutTag(withoutMade(withoutCrowd(document, id), id), id), "bar", id, undefined);

/** Its place in the order of fitting goes with it. */
function withoutTag(document: JobDocument, id: string): JobDocument {
  const { order } = document;
  if (!Array.isArray(order) || !order.includes(id)) return document;
  const rest = order.filter((bar) => bar !== id);
  return withEntry(document, "order", rest.length > 0 ? rest : undefined);
}

/** How a bar was built, what was read of it and the card issued for it go with it. */
function withoutMade(document: JobDocument, id: string): JobDocument {
  return BESIDE_BARS.reduce((doc, home) => {
    const all = doc[home];
    if (!isObject(all) || !Object.hasOwn(all, id)) return doc;
    const rest = withEntry(all, id, undefined);
    return withEntry(doc, home, Object.keys(rest).length > 0 ? rest : undefined);
  }, document);
}

function leaveOthers(document: JobDocument, id: string, all: readonly Dependent[], standsAt?: StandsAt) {
  let next = document;
  for (const bar of toWriteOut(document, id, all, standsAt)) {
    const stands = standsAt?.(bar);
    const label = calledOf(document, "bar", bar);
    if (!stands) return refused(REFUSED.noPlace(label));
    next = leftStanding(next, bar, id, stands);
  }
  return done(without(next, id));
}

/**
 * The bars whose place must be written out when `id` goes: those that need it; the mirror of one of them that itself
 * keeps a host; and, since a mirror that is written out is a twin no more, the mirrors that landed by that.
 */
function toWriteOut(document: JobDocument, id: string, all: readonly Dependent[], standsAt?: StandsAt) {
  const bars = new Set(all.filter((d) => !d.loose).map((d) => d.bar));
  const originalOf = (bar: string) => at(document, ["bars", bar, "mirrorOf"]) as string | undefined;
  const hostAt = (bar: string, end: "A" | "B") => standsAt?.(bar)?.ends[end].on?.hosts[0];
  const addByTwin = (bar: string): void => {
    for (const d of dependentsOf(document, "bar", bar)) {
      if (d.bar !== id && originalOf(d.bar) !== undefined && originalOf(d.bar) !== bar) bars.add(d.bar);
    }
  };
  // a set hands out what is added while it is walked
  for (const bar of bars) {
    const original = originalOf(bar);
    if (original !== undefined) {
      addByTwin(bar);
      addByTwin(original);
      continue;
    }
    for (const [mirror] of entries(thingsOf(document, "bar"))) {
      const keeps = (["A", "B"] as const).some(
        (end) => hostAt(bar, end) === id && hostAt(mirror, end) !== id,
      );
      if (originalOf(mirror) === bar && keeps && mirror !== id) bars.add(mirror);
    }
  }
  return bars;
}
