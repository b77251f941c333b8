import type { Phrase } from "../core/findings/index.ts";
import type { Judged } from "../core/fit/index.ts";
import { directionWords } from "./direction.ts";
import { IDS, type Names } from "./names.ts";
import { written } from "./write.ts";

type Fine = (mm: number) => string;
type Called = (id: string) => string;

const say = (phrase: Phrase, length: Fine, called: Called): string => {
  const names: Names = (name) => ("thing" in name ? called(name.thing) : IDS(name));
  return written(phrase, { length, angle: (degrees) => `${degrees}°` }, names);
};

/** Why a bar goes in, or does not: clauses in one line, lengths by `length`, what stands named by `called`. */
export const sayWhy = (why: Judged["why"], length: Fine, called: Called = (id) => id): string =>
  why.map((part) => say(part, length, called)).join("; ");

/** What there was to go past. */
export const sayPast = (past: Phrase): string => say(past, String, String);

export { directionWords as sayDirection };
