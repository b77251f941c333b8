/** On the paper of every printer: how to check it, how its sheets go together, and which page of a print each is. */
export const PRINTED = {
  check:
    "Measure from corner 0, both ways: 100 mm to the far side, 4 in to the mark beyond it. " +
    "If either is off, print again at 100 %, actual size, not fitted to the page.",
  join: "Cut one sheet on its join line, lay it on the other’s, marks on marks.",
  page: (n: number, of: number): string => `page ${n} of ${of}`,
  /** Where the check square of a print is, on a page that is used at true size. */
  squareHere: "Check square: this page.",
  squareOn: (page: number): string => `Check square: page ${page}.`,
  /** Title of a page that holds the check square alone. */
  alone: "Printer check",
} as const;
