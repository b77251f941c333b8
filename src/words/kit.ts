/** What the parts of every page say: dialogs, keypad, printing, steps. */

export const DIALOG = {
  close: "Close",
  none: "None yet.",
  /** What keeps a text from being a label or a name: "at most 60 characters, not 61", "has a tab in it". */
  wrongText: (why: string) =>
    why.startsWith("has") ? `Type it again: the text ${why}.` : `Shorten the text: ${why}.`,
} as const;

export const KEYPAD = {
  backspace: "Backspace",
  space: "Space",
  keys: "Keypad",
  direction: "Direction",
  done: "OK",
  equals: (written: string) => `= ${written}`,
  noLength: "type a length",
  noSign: "type the length without a sign: the side is chosen below",
  sumUnits: "type the unit behind each length of the sum",
  noAngle: "type an angle in degrees, such as 78.5",
  within: (least: number, most: number, unit: string) => `type ${least}${unit} to ${most}${unit}`,
} as const;

export const HAND_OUT = {
  all: "Print or save",
  print: "Print",
  save: "Save",
  printIt: (card: string) => `Print ${card}`,
  saveIt: (card: string) => `Save ${card}`,
  paper: "Paper",
  more: "More sheets, with a preview",
  drawing: "Drawing…",
  done: (card: string, trueSize: string) => `${card} is ready. ${trueSize}`,
  nothing: (card: string) => `${card}: nothing to print.`,
  failed: (why: string) => `Try again: the drawing failed (${why}).`,
} as const;

export const STAGE = {
  step: (n: number, count: number) => `Step ${n} of ${count}`,
  back: "Back",
  next: (does: string) => `Next: ${does}`,
  last: "Last step",
} as const;

/** A job in which no bar is laid out yet: what to do first. */
export const NO_BARS = {
  first: "Measure the car, or lay out the first bar",
  wall: "Lay out a bar",
  car: "Go to the Car",
  between: "Between two tubes",
  here: "Each bar is listed with the picture. The one taken in hand stays in hand from station to station.",
  station: (question: string) => `A bar is needed here: ${question}`,
  order: "The order of fitting lists each bar once it is laid out.",
  errors: "Errors are figured once a bar is laid out.",
} as const;

export const TAKE_ONE = {
  take: (question: string) => `Take a bar in hand: ${question}`,
  how: "Tap one in the list of bars, or tap Find. It stays in hand from station to station.",
  takeIt: (bar: string) => `Take ${bar}`,
  mend: "Go to the Wall",
  cannot: (bar: string) => `Change ${bar}: it cannot be made as it is`,
} as const;

/** Where a part of the page fails; `of` is what cannot be shown: "page", "list of bars". */
export const BOUNDARY = {
  failed: (of: string, why: string) =>
    `Save the job to a file, then reload. This ${of} cannot be shown (${why}). The job itself is not changed.`,
  save: "Save to a file",
  reload: "Reload",
  page: "page",
  bars: "list of bars",
} as const;
