/** "Read it again" of "read it again". */
export const capital = (said: string): string => `${said.charAt(0).toUpperCase()}${said.slice(1)}`;

/** Sentences one after the other, without the last stop: the first begins as it is given, the others with a capital. */
export const inSentences = (said: readonly string[]): string =>
  said.map((sentence, i) => (i === 0 ? sentence : capital(sentence))).join(". ");
