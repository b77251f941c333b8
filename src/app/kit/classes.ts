/** The names of those classes that hold, as an element takes them. */
export const classes = (...names: readonly (string | false | undefined)[]): string =>
  names.filter(Boolean).join(" ");
