/** What is over every station: the job, the stations, undo and redo, units, and what must be known at once. */

export const UNNAMED = "Job without a name";

export const TOP = {
  jobs: "Jobs",
  product: "Tubewright",
  page: { between: "Between two tubes", die: "A die from test bends", "my-shop": "My shop" },
  stations: "Stations",
  station: { wall: "Wall", car: "Car", bender: "Bender", trestles: "Trestles", notcher: "Notcher" },
  kept: {
    kept: "saved on this device",
    keeping: "saving…",
    memory: "NOT SAVED: IN THIS PAGE ONLY",
    refused: "NOT SAVED",
  },
  undo: (step: string | undefined) => (step === undefined ? "Nothing to undo" : `Undo: ${step}`),
  redo: (step: string | undefined) => (step === undefined ? "Nothing to redo" : `Redo: ${step}`),
  dark: "Use dark colours",
  light: "Use light colours",
  help: "? Keys and stations",
} as const;

/** How lengths are shown: millimetres, parts of an inch, decimal inches. */
export const UNITS = {
  title: "Units of lengths",
  now: (unit: string, short: string) => `Units: ${unit}, ${short}`,
  mm: "Millimetres",
  part: (fraction: number) => `Inches, to 1/${fraction}`,
  decimal: "Inches, decimal (thousandths)",
  set: (unit: string) => `units: ${unit}`,
} as const;

export const SHELL = {
  drop: "Drop the job file here",
  opening: "One moment…",
} as const;

/** What a danger is, in the fewest words. */
const SHORT: Readonly<Record<string, string>> = {
  "bend-into-floor": "bent part swings into the floor",
  "bend-into-operator": "bent part comes back at you",
  clash: "overlaps another bar",
  "clash-self": "runs into itself",
  "clash-plate": "overlaps a plate",
};

export const DANGERS = {
  region: "Danger",
  danger: "⚠ DANGER",
  of: (bar: string) => `${bar}: `,
  count: (dangers: number) => (dangers === 1 ? "⚠ DANGER" : `⚠ DANGER ${dangers}`),
  first: (danger: string, more: number) => (more === 0 ? danger : `${danger}; ${more} more`),
  short: (code: string) => SHORT[code] ?? "look at it",
  show: "Show",
  hide: "Hide",
} as const;

export const NOTICES = {
  save: "Save to a file",
  again: "Try again",
  ok: "OK",
  close: "Close",
  unreadable: (file: string, things: number) =>
    `Mend ${things === 1 ? "one thing" : `${things} things`} in ${file}, then open it again:`,
  more: (count: number) => `and ${count} more`,
  first: (line: string, more: number) => `${line} (and ${more} more)`,
  saveText: "Save its text",
  refused: (step: string, why: string, more: number) =>
    `Not done: ${step}. ${why}${more > 0 ? ` (and ${more} more)` : ""}`,
  newVersion: "Restart to use the newer version on this device. Your job stays as it is.",
  restart: "Restart",
  damaged: (job: string) =>
    `Choose what to do with ${job}: it is damaged on this device and is not opened. Its record stays as it is.`,
  openRest: "Open what can be read",
  saveRest: "Save what can be read",
  saveRaw: "Save the raw record",
} as const;
