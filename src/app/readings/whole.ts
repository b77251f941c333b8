/** A length to a whole millimetre or inch, in the unit of the page: where a tape is likely held, to be corrected. */
export const wholeIn = (mm: number, unit: "mm" | "in"): number | string =>
  unit === "mm" ? Math.round(mm) : `${Math.round(mm / 25.4)} in`;
