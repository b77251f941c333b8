import { at, isList, isObject, type JsonObject, type JsonPath, withEntry } from "../../../../shared/index.ts";
import { REFUSED, STEP } from "../../../../words/index.ts";
import { type Command, done, refused } from "../command.ts";
import { setValue, setValues } from "./value.ts";

/** Adds a reading, as it was read, behind the last of its list; the list is made where it is missing. */
export function addReading(list: JsonPath, reading: JsonObject, name: string): Command {
  return {
    name,
    edit(document) {
      const was = at(document, list);
      return setValue(list, [...(isList(was) ? was : []), reading], name).edit(document);
    },
  };
}

/** Adds a reading in place of an earlier one of the same size, which is struck through with the reason, in one step. */
export function readAgain(
  list: JsonPath,
  earlier: number,
  reading: JsonObject,
  said: { readonly why: string; readonly name: string },
): Command {
  return {
    name: said.name,
    edit(document) {
      const struck = strikeReading(list, earlier, true, said.why).edit(document);
      return struck.ok ? addReading(list, reading, said.name).edit(struck.document) : struck;
    },
  };
}

/** Strikes a reading through, or uses it again; it stays where it is, with the reason beside it. */
export function strikeReading(list: JsonPath, index: number, struck: boolean, why?: string): Command {
  return {
    name: struck ? STEP.strike : STEP.unstrike,
    edit(document) {
      const reading = at(document, [...list, index]);
      if (!isObject(reading)) return refused(REFUSED.noReading(index + 1));
      const bare = withEntry(withEntry(reading, "struck", undefined), "note", undefined);
      const next: JsonObject = struck ? { ...bare, struck: true, ...(why ? { note: why } : {}) } : bare;
      return setValue([...list, index], next).edit(document);
    },
  };
}

/** Where a bar stands, and the tube beyond its long points where its ends are still as sawn (mm). */
interface Built {
  readonly path: readonly (readonly number[])[];
  readonly over?: { readonly A: number; readonly B: number };
}

/** Bars as they were built, by ID, in one step. */
export function keepAsBuilt(built: Readonly<Record<string, Built>>, name: string): Command {
  const tidy = (v: number): number => Math.round(v * 1e4) / 1e4 + 0;
  const kept = ({ path, over }: Built): JsonObject => ({
    path: path.map((p) => p.map(tidy)),
    ...(over ? { over: { A: tidy(Math.max(0, over.A)), B: tidy(Math.max(0, over.B)) } } : {}),
  });
  return setValues(
    Object.entries(built).map(([bar, one]) => [["asBuilt", bar], kept(one)] as const),
    name,
  );
}

/** The plan again in place of how a bar was built; what was read of it stays. */
export const forgetAsBuilt = (bar: string, name: string): Command => ({
  name,
  edit(document) {
    const all = at(document, ["asBuilt"]);
    if (!isObject(all) || !Object.hasOwn(all, bar)) return done(document);
    const rest = withEntry(all, bar, undefined);
    return done(withEntry(document, "asBuilt", Object.keys(rest).length > 0 ? rest : undefined));
  },
});
