// biome-ignore-all lint/style/noNonNullAssertion: positions are checked against the text's length, and searches end at the top, whose place is always known.

import { type PhraseCode, phrase, text as textOf } from "../findings/index.ts";
import {
  codePoint,
  type Fault,
  type JobProblem,
  type Path,
  placeOf,
  quote,
  type Wrong,
  wrong,
} from "./problem.ts";

const NUMBER = /-?(?:0|[1-9]\d*)(?:\.\d+)?(?:[eE][-+]?\d+)?/y;
const WORD = /true|false|null/y;

/** `line 3, column 7`, both from 1; columns count UTF-16 units, as editors do. */
export const spot = (line: number, column: number): string => `line ${line}, column ${column}`;

/** Says the line and column of an offset; the text is looked through once. */
function spotter(text: string): (offset: number) => string {
  const starts = [0];
  for (const end of text.matchAll(/\r\n|\r|\n/g)) starts.push(end.index + end[0].length);
  return (offset) => {
    let [low, high] = [0, starts.length];
    while (high - low > 1) {
      const middle = (low + high) >> 1;
      if (starts[middle]! <= offset) low = middle;
      else high = middle;
    }
    return spot(low + 1, offset - starts[low]! + 1);
  };
}

/** What the grammar asks for at a place. */
type Wanted = Extract<
  PhraseCode,
  "json-key" | "json-colon" | "json-value" | "json-comma-or-brace" | "json-comma-or-bracket" | "json-nothing"
>;

interface JsonFault {
  readonly offset: number;
  readonly wrong: Wrong;
}

interface Twice {
  /** The whole path of the key. */
  readonly path: Path;
  readonly offset: number;
  /** Where it was given first. */
  readonly first: number;
}

/** Hears of every value: its path (kept by the walker, copy it), where it begins, and where its key does. */
type Hears = (path: Path, value: number, key: number) => void;

/** What is open: an object with the keys that it has so far, or a list. */
type Open = { readonly kind: "{"; readonly keys: Map<string, number> } | { readonly kind: "[" };

/**
 * Walks a text by the grammar of JSON (RFC 8259) with its own stack, to say where it first departs from it. Own, because
 * the engines' messages differ and several of them (Node 20: `Unexpected token 'a', "abc" is not valid JSON`) give no
 * position at all.
 */
export class Walker {
  /** Keys given before in the same object: JSON.parse silently takes the last. */
  readonly twice: Twice[] = [];
  private at = 0;
  private keyAt = 0;
  private readonly open: Open[] = [];
  private readonly path: (string | number)[] = [];
  constructor(
    private readonly text: string,
    private readonly hears?: Hears,
  ) {}

  private skip(): void {
    for (let c = this.text.charCodeAt(this.at); c === 32 || c === 10 || c === 13 || c === 9; )
      c = this.text.charCodeAt(++this.at);
  }

  private match(pattern: RegExp): boolean {
    pattern.lastIndex = this.at;
    if (!pattern.test(this.text)) return false;
    this.at = pattern.lastIndex;
    return true;
  }

  /** By hand: a pattern that repeats a choice may exhaust its stack on a text of megabytes. */
  private string(): JsonFault | boolean {
    if (this.text[this.at] !== '"') return false;
    for (let i = this.at + 1; i < this.text.length; i++) {
      const char = this.text[i]!;
      if (char === '"') {
        this.at = i + 1;
        return true;
      }
      if (char < " ") return this.inString(i);
      if (char !== "\\") continue;
      const escaped = /^(?:["\\/bfnrt]|u[0-9a-fA-F]{4})/.exec(this.text.slice(i + 1, i + 6));
      if (!escaped) return false;
      i += escaped[0].length;
    }
    return false;
  }

  /** A line break most likely means that a quote is missing; any other control character is one. */
  private inString(offset: number): JsonFault | false {
    const code = this.text.charCodeAt(offset);
    return code === 10 || code === 13
      ? false
      : { offset, wrong: wrong("json-control", { code: textOf(codePoint(code)) }) };
  }

  private sees(char: string): boolean {
    this.skip();
    if (this.text[this.at] !== char) return false;
    this.at++;
    return true;
  }

  private fault(wanted: Wanted): JsonFault {
    this.skip();
    const rest = this.text.slice(this.at, this.at + 12);
    if (rest.startsWith('"') && (wanted === "json-key" || wanted === "json-value"))
      return { offset: this.at, wrong: wrong("json-open-quote") };
    if (/^[\]}]/.test(rest) && this.text.slice(0, this.at).trimEnd().endsWith(","))
      return { offset: this.at, wrong: wrong("json-comma", { found: textOf(quote(rest[0]!)) }) };
    const word = /^[\p{L}\p{N}_]+/u.exec(rest)?.[0] ?? [...rest][0];
    if (word !== undefined)
      return {
        offset: this.at,
        wrong: wrong("json-expected", { wanted: phrase(wanted), found: textOf(quote(word)) }),
      };
    const open = this.open.at(-1);
    const inside = open ? phrase("json-still-open", { open: textOf(quote(open.kind)) }) : textOf("");
    return { offset: this.at, wrong: wrong("json-ends", { wanted: phrase(wanted), inside }) };
  }

  /** A key and its colon; the path's last step becomes it. */
  private key(keys: Map<string, number>): JsonFault | undefined {
    this.skip();
    const start = this.at;
    const read = this.string();
    if (read !== true) return read || this.fault("json-key");
    const key = JSON.parse(this.text.slice(start, this.at)) as string;
    this.path[this.open.length - 1] = key;
    const first = keys.get(key);
    if (first === undefined) keys.set(key, start);
    else this.twice.push({ path: [...this.path], offset: start, first });
    this.keyAt = start;
    return this.sees(":") ? undefined : this.fault("json-colon");
  }

  /** One value, or the opening of one; true where something was opened and a value must follow. */
  private value(): JsonFault | boolean {
    this.skip();
    this.hears?.(this.path, this.at, typeof this.path.at(-1) === "string" ? this.keyAt : this.at);
    if (this.sees("{")) {
      if (this.sees("}")) return false;
      const keys = new Map<string, number>();
      this.open.push({ kind: "{", keys });
      return this.key(keys) ?? true;
    }
    if (this.sees("[")) {
      if (this.sees("]")) return false;
      this.open.push({ kind: "[" });
      this.path.push(0);
      return true;
    }
    const text = this.string();
    if (typeof text === "object") return text;
    return text || this.match(NUMBER) || this.match(WORD) ? false : this.fault("json-value");
  }

  /** What follows a value: closings, then a comma; true where another value must follow, false at the end. */
  private after(): JsonFault | boolean {
    for (let inside = this.open.at(-1); inside !== undefined; inside = this.open.at(-1)) {
      if (this.sees(",")) {
        if (inside.kind === "{") return this.key(inside.keys) ?? true;
        this.path.push((this.path.pop() as number) + 1);
        return true;
      }
      const close = inside.kind === "{" ? "}" : "]";
      if (!this.sees(close))
        return this.fault(inside.kind === "{" ? "json-comma-or-brace" : "json-comma-or-bracket");
      this.open.pop();
      this.path.pop();
    }
    this.skip();
    return this.at < this.text.length ? this.fault("json-nothing") : false;
  }

  walk(): JsonFault | undefined {
    for (;;) {
      let more = this.value();
      if (more === false) more = this.after();
      if (typeof more === "object") return more;
      if (!more) return undefined;
    }
  }
}

export type Parsed =
  | { readonly ok: true; readonly document: unknown }
  | { readonly ok: false; readonly problems: readonly JobProblem[] };

const withoutMark = (text: string): string => (text.startsWith("\ufeff") ? text.slice(1) : text);

/**
 * The document in a job file's text. Takes a byte order mark in front. A key given twice is refused: RFC 8259 (4.)
 * leaves open what it means, and JSON.parse silently drops the first.
 */
export function parseJson(text: string): Parsed {
  const json = withoutMark(text);
  if (json.trim() === "") return { ok: false, problems: [{ place: "job", ...wrong("file-empty") }] };
  const walker = new Walker(json);
  const fault = walker.walk();
  const at = spotter(json);
  if (fault) return { ok: false, problems: [{ place: at(fault.offset), ...fault.wrong }] };
  if (walker.twice.length > 0) {
    const problems = walker.twice.map(({ path, offset, first }) => ({
      place: at(offset),
      ...wrong("json-twice", { place: textOf(placeOf(path)), first: textOf(at(first)) }),
    }));
    return { ok: false, problems };
  }
  return { ok: true, document: JSON.parse(json) };
}

/** The faults of a text's document with the line and column of each; where a key is missing, of what lacks it. */
export function located(text: string, faults: readonly Fault[]): readonly JobProblem[] {
  const json = withoutMark(text);
  const prefixes = faults.flatMap(({ path }) => path.map((_, n) => JSON.stringify(path.slice(0, n + 1))));
  const wanted = new Set(prefixes);
  const deepest = faults.reduce((most, { path }) => Math.max(most, path.length), 0);
  const found = new Map([["[]", { value: json.search(/\S/), key: 0 }]]);
  new Walker(json, (path, value, key) => {
    if (path.length > deepest) return;
    const name = JSON.stringify(path);
    if (wanted.has(name)) found.set(name, { value, key });
  }).walk();
  const at = spotter(json);
  return faults.map(({ place, code, values, path, inKey }) => {
    let known = path;
    while (!found.has(JSON.stringify(known))) known = known.slice(0, -1);
    const { value, key } = found.get(JSON.stringify(known))!;
    return { place, code, values, at: at(inKey && known === path ? key : value) };
  });
}
