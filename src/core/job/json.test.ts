import fc from "fast-check";
import { describe, expect, it } from "vitest";
import { problemLine } from "../../words/index.ts";
import { parseJson, Walker } from "./json.ts";

const line = (text: string): string => {
  const read = parseJson(text);
  return read.ok ? "read" : read.problems.map(problemLine).join("\n");
};

describe("text that is no JSON", () => {
  it.each([
    ["", "job: the file is empty"],
    [" \n\t", "job: the file is empty"],
    ["\ufeff", "job: the file is empty"],
    ["abc", 'line 1, column 1: not JSON: expected a value, found "abc"'],
    ['{\n "a": 1,\n}', 'line 3, column 1: not JSON: a comma too many before "}"'],
    ['{\r\n "a": [1, 2,]}', 'line 2, column 13: not JSON: a comma too many before "]"'],
    ['{"a": 1 "b": 2}', 'line 1, column 9: not JSON: expected "," or "}", found "\\""'],
    ['{"a" 1}', 'line 1, column 6: not JSON: expected ":" after the key, found "1"'],
    ["{'a': 1}", 'line 1, column 2: not JSON: expected a key in double quotes, found "\'"'],
    ["{a: 1}", 'line 1, column 2: not JSON: expected a key in double quotes, found "a"'],
    ["[01]", 'line 1, column 3: not JSON: expected "," or "]", found "1"'],
    ["[.5]", 'line 1, column 2: not JSON: expected a value, found "."'],
    ["[NaN]", 'line 1, column 2: not JSON: expected a value, found "NaN"'],
    ["[1] x", 'line 1, column 5: not JSON: expected nothing more, found "x"'],
    [
      '{"a": [1',
      'line 1, column 9: not JSON: the text ends where "," or "]" should stand; "[" is still open',
    ],
    ['{"a": "1\' 3-1/2""}', 'line 1, column 17: not JSON: expected "," or "}", found "\\""'],
    [
      '{"a": "x}',
      "line 1, column 7: not JSON: the text in quotes that begins here does not end, or has a \\ too many",
    ],
    [
      '["C:\\hoop"]',
      "line 1, column 2: not JSON: the text in quotes that begins here does not end, or has a \\ too many",
    ],
    ['["a\u0007b"]', "line 1, column 4: not JSON: a control character (U+0007) in a text; take it out"],
    ["// note\n{}", 'line 1, column 1: not JSON: expected a value, found "/"'],
  ])("%j", (text, answer) => expect(line(text)).toBe(answer));

  it("takes a byte order mark", () => expect(line("\ufeff{}")).toBe("read"));
});

describe("a key given twice", () => {
  // RFC 8259, 4: "The names within an object SHOULD be unique"; JSON.parse takes the last without a word.
  it.each([
    ['{"a":1,\n"a":2}', "line 2, column 1: a is given a second time (first in line 1, column 2); keep one"],
    [
      '{"a": {"b": [{"c": 1}, {"c": 1,\r\n  "d": 2, "\\u0063": 3}]}}',
      "line 2, column 11: a.b[1].c is given a second time (first in line 1, column 25); keep one",
    ],
    [
      '{"a":1,"a":2,"a":{"b":1,"b":1}}',
      "line 1, column 8: a is given a second time (first in line 1, column 2); keep one\n" +
        "line 1, column 14: a is given a second time (first in line 1, column 2); keep one\n" +
        "line 1, column 25: a.b is given a second time (first in line 1, column 19); keep one",
    ],
    [
      '{"__proto__":1,"__proto__":2}',
      "line 1, column 16: __proto__ is given a second time (first in line 1, column 2); keep one",
    ],
    ['{"constructor":1,"toString":2,"a":{"constructor":1}}', "read"],
    ['[{"a":1},{"a":1},[{"a":[]},{"a":{}}]]', "read"],
    ['{"a":{},"b":[],"c":{"a":[[],{}],"b":1}}', "read"],
  ])("%j", (text, answer) => expect(line(text)).toBe(answer));

  it("is found wherever it was put, and nowhere else", () => {
    const key = fc.constantFrom("a", "b", "on", "__proto__", "é");
    const value = fc.letrec((tie) => ({
      value: fc.oneof({ maxDepth: 4 }, fc.constant("1"), tie("list"), tie("object")),
      list: fc.array(tie("value"), { maxLength: 3 }).map((v) => `[${v.join(",")}]`),
      object: fc
        .uniqueArray(fc.tuple(key, tie("value")), { maxLength: 4, selector: ([k]) => k })
        .map((v) => `{${v.map(([k, x]) => `${JSON.stringify(k)}:${x}`).join(", ")}}`),
    })).object;
    fc.assert(
      fc.property(value, fc.nat(), (text, at) => {
        expect(line(text)).toBe("read");
        const keys = [...text.matchAll(/"[^"]+":/g)];
        if (keys.length === 0) return;
        const { index, 0: twice } = keys[at % keys.length]!;
        const doubled = `${text.slice(0, index)}${twice}[],${text.slice(index)}`;
        const column = index + twice.length + 4;
        expect(line(doubled)).toMatch(
          new RegExp(`^line 1, column ${column}: .*first in line 1, column ${index + 1}\\)`),
        );
      }),
      { seed: 29, numRuns: 2000 },
    );
  });
});

describe("where a text departs from JSON", () => {
  const jsonFault = (text: string) => new Walker(text).walk();
  const accepted = (text: string): boolean => {
    try {
      JSON.parse(text);
      return true;
    } catch {
      return false;
    }
  };

  it("is somewhere just when the language's own parser refuses it", () => {
    const letter = fc.constantFrom(...'{}[]:,"\\ \n019.-+eEtrufalsn/\u0007\u2028é');
    const change = fc.tuple(fc.nat(), fc.nat({ max: 2 }), letter);
    fc.assert(
      fc.property(fc.json({ maxDepth: 3 }), fc.array(change, { maxLength: 2 }), (json, changes) => {
        let text = json;
        for (const [where, dropped, put] of changes) {
          const at = where % (text.length + 1);
          text = text.slice(0, at) + put + text.slice(at + dropped);
        }
        const fault = jsonFault(text);
        expect(fault === undefined).toBe(accepted(text));
        if (fault) expect(fault.offset).toBeLessThanOrEqual(text.length);
      }),
      { seed: 23, numRuns: 10_000 },
    );
  });

  it("is at the cut where a text is cut short, or at the start of the piece cut", () => {
    const whole = JSON.stringify({ a: [1, "two", { b: null }], c: true });
    for (let cut = 1; cut < whole.length; cut++) {
      const fault = jsonFault(whole.slice(0, cut));
      expect(fault!.offset).toBeGreaterThan(cut - 6);
      expect(fault!.offset).toBeLessThanOrEqual(cut);
    }
  });
});
