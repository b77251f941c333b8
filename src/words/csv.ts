/** Headers of the tables beside the cards; `u` is the unit of their lengths. */
export const BARS_CSV = (u: string): readonly string[] => [
  "bar",
  "label",
  "hand",
  "card",
  "code",
  "date",
  "tube",
  `outside diameter (${u})`,
  `wall (${u})`,
  "die",
  `length on centreline (${u})`,
  `net length, long point to long point, before bending (${u})`,
  `allowance at end A (${u})`,
  `allowance at end B (${u})`,
  `saw to (${u})`,
  "bends",
  "end fed first",
  "host at end A",
  "host at end B",
  "end B against end A, clockwise from A toward B (deg)",
  "progress",
  `sawn to (${u})`,
  "made to card",
];

export const BENDS_CSV = (u: string): readonly string[] => [
  "bar",
  "bend",
  "order of bending",
  `mark from sawn end A (${u})`,
  `mark from sawn end B (${u})`,
  "angle (deg)",
  "angle to set (deg)",
  "turn before the bend, clockwise from A toward B (deg)",
  "turn of the tube before the bend, as the operator sees it (deg)",
  "way of that turn",
  `centreline radius (${u})`,
  `straight before the bend (${u})`,
  `mark as bent, from the end fed first (${u})`,
  "end fed first as bent",
  "angle set as bent (deg)",
  "turn as bent, clockwise from A toward B (deg)",
];

export const COPES_CSV = (u: string): readonly string[] => [
  "bar",
  "end",
  "host",
  "kind",
  "zero line",
  `long point, back from the landing (${u})`,
  `short point, back from the landing (${u})`,
  `hole saw diameter (${u})`,
  "off square (deg)",
  "clock of the heel or long point, counter-clockwise from the zero line (deg)",
  `side offset toward 90 deg past the heel (${u})`,
  `hole centre beyond the long point (${u})`,
  `hole centre from the sawn end (${u})`,
  `hole centre from the nearest bend (${u})`,
  "one cut seats exactly",
  `greatest gap (${u})`,
  "clock of the greatest gap (deg)",
  "use the wrap",
  "clocks where the rim stays open, counter-clockwise from the zero line (deg)",
  "notched",
  "off square as notched (deg)",
  `hole centre from the sawn end as notched (${u})`,
];

/** How an end was notched. */
export const COPES_CSV_METHOD = { "hole saw": "hole saw", wrap: "wrap", saw: "flat" } as const;

/** In place of the number of a card that was not issued: the number that it will have. */
export const sayNotIssued = (n: number): string => `${n}, not issued`;

export const sayYesNo = (yes: boolean): string => (yes ? "yes" : "no");
