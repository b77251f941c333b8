/** "Read it again" of "read it again". */
export const capital = (said: string): string => `${said.charAt(0).toUpperCase()}${said.slice(1)}`;

/** "read it again" of "Read it again". */
export const small = (said: string): string => `${said.charAt(0).toLowerCase()}${said.slice(1)}`;

/** "Read it again." of "read it again": a whole sentence of words that begin one. */
export const sentence = (said: string): string => `${capital(said)}${/[.!?]$/.test(said) ? "" : "."}`;

/** Sentences one after the other, without the last stop: the first begins as it is given, the others with a capital. */
export const inSentences = (said: readonly string[]): string =>
  said.map((part, i) => (i === 0 ? part : capital(part))).join(". ");

/** "a, b and c" */
export const inLine = (items: readonly string[]): string =>
  items.length < 2 ? items.join() : `${items.slice(0, -1).join(", ")} and ${items[items.length - 1]}`;

/** "3 cards", "1 card", "2 matches" */
export const counted = (count: number, thing: string, things = `${thing}s`): string =>
  `${count} ${count === 1 ? thing : things}`;

/** "62 %" of 0.62 */
export const sayPercent = (share: number): string => `${Math.round(share * 100)} %`;

/** Beside the ± of a page, once. */
export const EXPLAIN_ERROR = "± is one standard deviation: 68 % of results lie within it.";
