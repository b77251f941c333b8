// biome-ignore-all lint/style/noNonNullAssertion: i runs below the number of bytes.
import { spot } from "./json.ts";
import { type JobProblem, wrong } from "./problem.ts";

/** How many bytes a lead byte asks for, and what its second byte may be: Unicode Standard 15.0, table 3-7. */
function sequence(lead: number): readonly [bytes: number, low: number, high: number] | undefined {
  if (lead < 0x80) return [1, 0, 0];
  if (lead >= 0xc2 && lead <= 0xdf) return [2, 0x80, 0xbf];
  if (lead >= 0xe0 && lead <= 0xef) return [3, lead === 0xe0 ? 0xa0 : 0x80, lead === 0xed ? 0x9f : 0xbf];
  if (lead >= 0xf0 && lead <= 0xf4) return [4, lead === 0xf0 ? 0x90 : 0x80, lead === 0xf4 ? 0x8f : 0xbf];
  return undefined;
}

/** Whether the bytes from `i` make one character. */
function whole(bytes: Uint8Array, i: number): number | undefined {
  const wanted = sequence(bytes[i]!);
  if (!wanted) return undefined;
  const [length, low, high] = wanted;
  for (let n = 1; n < length; n++) {
    const byte = bytes[i + n];
    const [from, to] = n === 1 ? [low, high] : [0x80, 0xbf];
    if (byte === undefined || byte < from || byte > to) return undefined;
  }
  return length;
}

/**
 * Where a file's bytes first are no UTF-8, with its line and column as editors count them (UTF-16 units); undefined
 * where all of it is. Decoders put U+FFFD there and go on, and a label comes out wrong without a word.
 */
export function utf8Problem(bytes: Uint8Array): JobProblem | undefined {
  const [first, second] = bytes;
  if ((first === 0xff && second === 0xfe) || (first === 0xfe && second === 0xff))
    return { place: spot(1, 1), ...wrong("utf16") };
  let [line, column] = [1, 1];
  let i = first === 0xef && second === 0xbb && bytes[2] === 0xbf ? 3 : 0;
  while (i < bytes.length) {
    const length = whole(bytes, i);
    if (length === undefined) {
      const byte = `0x${bytes[i]!.toString(16).toUpperCase().padStart(2, "0")}`;
      return { place: spot(line, column), ...wrong("no-utf8", { byte: { text: byte } }) };
    }
    const char = bytes[i]!;
    if (char === 0x0a || (char === 0x0d && bytes[i + 1] !== 0x0a)) [line, column] = [line + 1, 1];
    else column += length === 4 ? 2 : 1;
    i += length;
  }
  return undefined;
}
