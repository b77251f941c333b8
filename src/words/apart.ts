/** A size as text. */
type Size = (size: number) => string;

/** Whether sizes that differ would read alike. */
export const readAlike = (sizes: readonly number[], write: Size): boolean =>
  new Set(sizes).size > new Set(sizes.map(write)).size;

/** Sizes that are compared: as usual, or all finer where some that differ would read alike. */
export const apart = (sizes: readonly number[], write: Size, finer: Size | undefined): readonly string[] =>
  sizes.map(finer && readAlike(sizes, write) ? finer : write);
