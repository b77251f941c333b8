import fc from "fast-check";
import { describe, expect, it } from "vitest";
import { problemLine } from "../../words/index.ts";
import { utf8Problem } from "./utf8.ts";

const bytes = (...parts: readonly (string | number)[]): Uint8Array =>
  new Uint8Array(parts.flatMap((p) => (typeof p === "number" ? [p] : [...Buffer.from(p, "utf8")])));
const line = (...parts: readonly (string | number)[]): string | undefined => {
  const found = utf8Problem(bytes(...parts));
  return found && problemLine(found);
};

describe("a file that is no UTF-8", () => {
  it.each([
    [['{\n "é": "', 0xe9, 't"}'], "line 2, column 8: byte 0xE9 is no UTF-8; save the file as UTF-8"],
    [["😀", 0x80], "line 1, column 3: byte 0x80 is no UTF-8; save the file as UTF-8"],
    [["\r\n\r\ra", 0xc0, 0x80], "line 4, column 2: byte 0xC0 is no UTF-8; save the file as UTF-8"],
    // a half of a pair, past the last code, an overlong form, a character cut short
    [[0xed, 0xa0, 0x80], "line 1, column 1: byte 0xED is no UTF-8; save the file as UTF-8"],
    [[0xf4, 0x90, 0x80, 0x80], "line 1, column 1: byte 0xF4 is no UTF-8; save the file as UTF-8"],
    [[0xe0, 0x9f, 0xbf], "line 1, column 1: byte 0xE0 is no UTF-8; save the file as UTF-8"],
    [["a", 0xf0, 0x9f, 0x98], "line 1, column 2: byte 0xF0 is no UTF-8; save the file as UTF-8"],
    [[0xff, 0xfe, 0x7b, 0], "line 1, column 1: the file is UTF-16; save it as UTF-8"],
    [[0xef, 0xbb, 0xbf, 0xff], "line 1, column 1: byte 0xFF is no UTF-8; save the file as UTF-8"],
  ])("%j", (parts, said) => expect(line(...parts)).toBe(said));

  it("is told from one that is just as the platform's own strict decoder tells it", () => {
    const strict = (of: Uint8Array): boolean => {
      try {
        new TextDecoder("utf-8", { fatal: true }).decode(of);
        return true;
      } catch {
        return false;
      }
    };
    const byte = fc.oneof(
      fc.nat({ max: 255 }),
      fc.constantFrom(0x0a, 0x41, 0x80, 0x8f, 0x90, 0x9f, 0xa0, 0xbf, 0xc2, 0xe0, 0xed, 0xef, 0xf0, 0xf4),
    );
    const text = fc.string({ unit: "binary", maxLength: 6 }).map((t) => [...Buffer.from(t, "utf8")]);
    fc.assert(
      fc.property(fc.tuple(text, fc.array(byte, { maxLength: 4 }), text), (parts) => {
        const of = new Uint8Array([0x20, ...parts.flat()]);
        expect(utf8Problem(of) === undefined).toBe(strict(of));
      }),
      { seed: 31, numRuns: 20_000 },
    );
  });
});
