/** On the paper of every printer: how to check it, and how its sheets go together. */
export const PRINTED = {
  check:
    "Measure from corner 0, both ways: 100 mm to the far side, 4 in to the mark beyond it. " +
    "If either is off, print again at 100 %, actual size, not fitted to the page.",
  join: "Cut one sheet on its join line, lay it on the other’s, marks on marks.",
} as const;
