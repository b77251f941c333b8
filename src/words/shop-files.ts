/** What the shop says of the files in its folder. */
export const FILED = {
  device: "The shop's folder",
  left: (file: string, why: string): string =>
    `Mend ${JSON.stringify(file)} in the shop's folder: it does not pass and is left as it is. ${why}`,
  refused: (code: string): string =>
    `Make room, or look at the rights of the shop's folder: the shop cannot write its job files there (${code}). The jobs themselves are stored.`,
} as const;
