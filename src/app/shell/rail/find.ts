/** Words of a text, in small letters, accents and punctuation aside: "Rear stay, left" gives rear, stay, left. */
const wordsOf = (text: string): readonly string[] =>
  text
    .normalize("NFD")
    .replace(/\p{M}/gu, "")
    .toLowerCase()
    .split(/[^\p{L}\p{N}]+/u)
    .filter((word) => word !== "");

/** Whether every part of a word that was typed is in some word of the texts, in any order. */
export function isFound(typed: string, texts: readonly string[]): boolean {
  const words = texts.flatMap(wordsOf);
  return wordsOf(typed).every((part) => words.some((word) => word.includes(part)));
}
