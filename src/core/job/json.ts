import { type JobProblem, quote } from "./problem.ts";

const NUMBER = /-?(?:0|[1-9]\d*)(?:\.\d+)?(?:[eE][-+]?\d+)?/y;
const WORD = /true|false|null/y;

/** `line 3, column 7`, both from 1; columns count UTF-16 units, as editors do. */
function lineAndColumn(text: string, offset: number): string {
  const before = text.slice(0, offset).split(/\r\n|\r|\n/);
  return `line ${before.length}, column ${before.at(-1)!.length + 1}`;
}

interface JsonFault {
  readonly offset: number;
  readonly why: string;
}

/** Walks a text by the grammar of JSON (RFC 8259) with its own stack, to say where it first departs from it. */
class Walker {
  private at = 0;
  private readonly open: ("{" | "[")[] = [];
  constructor(private readonly text: string) {}

  private skip(): void {
    while (/[ \t\r\n]/.test(this.text[this.at] ?? "")) this.at++;
  }

  private match(pattern: RegExp): boolean {
    pattern.lastIndex = this.at;
    if (!pattern.test(this.text)) return false;
    this.at = pattern.lastIndex;
    return true;
  }

  /** By hand: a pattern that repeats a choice may exhaust its stack on a text of megabytes. */
  private string(): boolean {
    if (this.text[this.at] !== '"') return false;
    for (let i = this.at + 1; i < this.text.length; i++) {
      const char = this.text[i]!;
      if (char === '"') {
        this.at = i + 1;
        return true;
      }
      if (char < " ") return false;
      if (char !== "\\") continue;
      const escaped = /^(?:["\\/bfnrt]|u[0-9a-fA-F]{4})/.exec(this.text.slice(i + 1, i + 6));
      if (!escaped) return false;
      i += escaped[0].length;
    }
    return false;
  }

  private sees(char: string): boolean {
    this.skip();
    if (this.text[this.at] !== char) return false;
    this.at++;
    return true;
  }

  private fault(wanted: string): JsonFault {
    this.skip();
    const rest = this.text.slice(this.at, this.at + 12);
    if (rest.startsWith('"') && wanted !== "nothing more" && !wanted.includes('"'))
      return {
        offset: this.at,
        why: "the text in quotes that begins here does not end, or has a \\ too many",
      };
    if (/^[\]}]/.test(rest) && this.text.slice(0, this.at).trimEnd().endsWith(","))
      return { offset: this.at, why: `a comma too many before ${quote(rest[0]!)}` };
    const word = /^[\p{L}\p{N}_]+/u.exec(rest)?.[0] ?? [...rest][0];
    if (word !== undefined) return { offset: this.at, why: `expected ${wanted}, found ${quote(word)}` };
    const inside = this.open.length === 0 ? "" : `; ${quote(this.open.at(-1)!)} is still open`;
    return { offset: this.at, why: `the text ends where ${wanted} should stand${inside}` };
  }

  private key(): JsonFault | undefined {
    this.skip();
    if (!this.string()) return this.fault("a key in double quotes");
    return this.sees(":") ? undefined : this.fault('":" after the key');
  }

  /** One value, or the opening of one; true where something was opened and a value must follow. */
  private value(): JsonFault | boolean {
    if (this.sees("{")) {
      if (this.sees("}")) return false;
      this.open.push("{");
      return this.key() ?? true;
    }
    if (this.sees("[")) {
      if (this.sees("]")) return false;
      this.open.push("[");
      return true;
    }
    const scalar = this.string() || this.match(NUMBER) || this.match(WORD);
    return scalar ? false : this.fault("a value");
  }

  /** What follows a value: closings, then a comma; true where another value must follow, false at the end. */
  private after(): JsonFault | boolean {
    for (let inside = this.open.at(-1); inside !== undefined; inside = this.open.at(-1)) {
      if (this.sees(",")) return inside === "{" ? (this.key() ?? true) : true;
      const close = inside === "{" ? "}" : "]";
      if (!this.sees(close)) return this.fault(`"," or "${close}"`);
      this.open.pop();
    }
    this.skip();
    return this.at < this.text.length ? this.fault("nothing more") : false;
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

/**
 * Where a text first departs from JSON, undefined where it does not. Own, because the engines' messages differ and
 * several of them (Node 20: `Unexpected token 'a', "abc" is not valid JSON`) give no position at all.
 */
export const jsonFault = (text: string): JsonFault | undefined => new Walker(text).walk();

/** The document in a job file's text. Takes a byte order mark in front. */
export function parseJson(
  text: string,
): { readonly ok: true; readonly document: unknown } | { readonly ok: false; readonly problem: JobProblem } {
  const json = text.startsWith("\ufeff") ? text.slice(1) : text;
  if (json.trim() === "") return { ok: false, problem: { place: "job", message: "the file is empty" } };
  try {
    return { ok: true, document: JSON.parse(json) };
  } catch {
    const fault = jsonFault(json);
    const place = fault ? lineAndColumn(json, fault.offset) : "job";
    return { ok: false, problem: { place, message: `not JSON: ${fault?.why ?? "the text cannot be read"}` } };
  }
}
