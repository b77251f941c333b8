import fc from "fast-check";
import { describe, expect, it } from "vitest";
import { jsonFault, parseJson } from "./json.ts";

const line = (text: string): string => {
  const read = parseJson(text);
  return read.ok ? "read" : `${read.problem.place}: ${read.problem.message}`;
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
    ["// note\n{}", 'line 1, column 1: not JSON: expected a value, found "/"'],
  ])("%j", (text, answer) => expect(line(text)).toBe(answer));

  it("takes a byte order mark", () => expect(line("\ufeff{}")).toBe("read"));
});

describe("where a text departs from JSON", () => {
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
