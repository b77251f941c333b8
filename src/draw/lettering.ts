/** Height of the capitals over the em in DejaVu Sans. */
export const CAP_PER_EM = 1493 / 2048;

/** Width of one line of words in DejaVu Sans, mm; size: height of the capitals, mm. */
export function textWidth(_words: string, _size: number, _bold = false): number {
  throw new Error("being written");
}
