/** How far a long computation is, and why it stops. */
export const LONG_WORK = {
  places: "bars and the places measured",
  welds: "the welds",
  cure: (bar: string): string => `a cure for ${bar}`,
  shorter: (bar: string): string => `${bar}, shorter`,
  noJob: "the job does not pass; mend it first",
  noWorker: "use another browser or the command line: this browser starts no worker for long work",
} as const;
