/** The page on which a print is put together and looked at. */
export const PRINT_PAGE = {
  title: "Print",
  back: "Back to the job",
} as const;
