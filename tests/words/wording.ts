/**
 * The lists that every sentence is read against: of words, pages, cards and commands. Plain shop English: what to do
 * first, then why, in twenty words at most, and one name for one thing.
 */

/** Everyday words that are not used in place of shop words. */
const EVERYDAY: readonly RegExp[] = [
  /\bstands\b/i,
  /\blies\b/i,
  /\btold\b/i,
  /\bsaid\b/i,
  /\banew\b/i,
  /\bso\b/i,
  /\bno more\b/i,
  /\bgood to\b/i,
  /\bsure to\b/i,
  /\bfelt\b/i,
  /\bcosts\b/i,
  /\bpays\b/i,
  /\bhands? gives?\b/i,
];

/** What is not said, and what is said instead. */
const TERMS: readonly (readonly [RegExp, string])[] = [
  [/\bblanks?\b/i, "saw to, sawn length or net length"],
  [/\btrim\b/i, "allowance"],
  [/\bleft over\b|\bmore over\b/i, "allowance"],
  [/\brotations?\b/i, "turn before bend N"],
  [/\broll(s|ed|ing)?\b/i, "turn before bend N; of a notch, clock"],
  [/\bturn \d/i, "turn before bend N"],
  [/\bheel at\b|\bheel stands\b/i, "clock"],
  [/\bthe side that faces\b/i, "zero line: top of the tube"],
  [/\bstand(s|ing)? off\b|\bstand-off\b/i, "gap"],
  [/\bleaves? [^.]*\bstanding\b/i, "metal to file"],
  [/\boff its seat\b/i, "short of its seat"],
  [/\btube to spare\b/i, "allowance"],
  [/\b(shift|move) the saw\b/i, "hole saw"],
  [/\bside shift\b/i, "side offset"],
  [/\b(its )?joints hold it\b/i, "held by its joints (hosts taken as rigid)"],
  [/\bmiddle to middle\b/i, "centre to centre"],
  [/\bhand:? centre\b/i, "no hand shown"],
  [/\bholds? no more than its name\b/i, "what is missing, by name"],
];

/** Sense that the lists do not mean: an option of a command keeps its name; feet and plates stand on the floor, a car on axle stands, a car's lining is its trim. */
const OTHER_SENSE: readonly RegExp[] = [
  /--roll\b/g,
  /\bstands on\b/gi,
  /\b(axle|car on) stands\b/gi,
  /\bcan['’]t be told\b/gi,
  /\bfuel lines and trim\b/gi,
  /\btrim and sealer\b/gi,
  // where a drawing breaks the line between them
  /\bafter it: trim( and)?$/gi,
];

/** A percentage, never "n in 10" or "n to 1". */
const ODDS: readonly RegExp[] = [
  /(\d|\}|\b(one|two|three|nine)) in (10|100|ten|a hundred)\b/i,
  /\bof (10|100)\b/,
  /(\d|\}|\b(one|two|three)) to (1|one)\b/i,
];

const LAST_PREPOSITION = /\b(at|of|to|from|by|with|for|onto|into|between)$/i;
/** The column of the term itself. */
const SAW_TO = /\bsaw to$/i;

export const MOST_WORDS = 20;

/** What is wrong with a text that a person reads, each as one line; empty where nothing is. */
export function faultsOf(text: string): readonly string[] {
  const plain = OTHER_SENSE.reduce((t, sense) => t.replace(sense, "…"), text);
  return [
    ...found(EVERYDAY, plain).map((word) => `everyday word "${word}"`),
    ...TERMS.flatMap(([not, instead]) => found([not], plain).map((word) => `"${word}": say ${instead}`)),
    ...found(ODDS, plain).map((odds) => `"${odds}": say a percentage`),
    ...sentencesOf(text).flatMap(faultsOfSentence),
  ];
}

const found = (list: readonly RegExp[], text: string): readonly string[] =>
  list.flatMap((word) => word.exec(text)?.[0] ?? []);

/** Sentences end with a stop, not with a semicolon; 12.5 and "in." are inside one. */
export const sentencesOf = (text: string): readonly string[] =>
  text
    .split(/(?<=[\p{L}\p{N})}°%"’'])[.?!](?=\s|$)/u)
    .map((sentence) => sentence.trim())
    .filter((sentence) => sentence !== "");

function faultsOfSentence(sentence: string): readonly string[] {
  const words = wordsOf(sentence);
  const label = sentence.replace(/[\s:…]+$/, "");
  return [
    ...(words > MOST_WORDS ? [`${words} words: "${sentence}"`] : []),
    ...(LAST_PREPOSITION.test(label) && !SAW_TO.test(label) ? [`ends in a preposition: "${sentence}"`] : []),
    ...(/\bcope[sd]?\b/i.test(sentence) && /\bnotch(es|ed)?\b/i.test(sentence)
      ? [`notch and cope in one sentence: "${sentence}"`]
      : []),
  ];
}

/** A figure and its unit are one word; a value still to be written ({…}) is one. */
const wordsOf = (sentence: string): number =>
  sentence
    // "1 3/16 − in" is one word, as "30.2 mm" is
    .replace(/(?:\d+[\s\u00a0])?\d+(?:\/\d+)?(?:[\s\u00a0][+−])?(?=[\s\u00a0]in(?![\p{L}]))/gu, "1")
    .replace(/([\d})])[\s\u00a0](mm|cm|in|ft|N|%|°)(?=[\s,;:).]|$)/gu, "$1$2")
    .split(/[\s\u00a0]+/u)
    .filter((word) => /[\p{L}\p{N}}]/u.test(word)).length;
