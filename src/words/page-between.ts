/** Two tubes in place, and the bar between them. */
export const BETWEEN = {
  job: "Between two tubes",
  tube: (n: 1 | 2): string => `Tube ${n}`,
  bar: "New bar",
  result: "The bar between them",
  correct: "Correct the reading named on this page.",
  picture: "Both joints",
  wrap: (end: "A" | "B", tube: 1 | 2): string => `Wrap, end ${end} (tube ${tube})`,
} as const;

/** What was measured, in sentences round its values. */
export const MEASURED = {
  label: "Measurements",
  how: "Chalk both tubes on the same side. Stretch a string where the new bar is to run.",
  angle: "Each reading is the angle between the string and the chalked half of the tube.",
  square:
    "90° is square, less leans toward the other tube, more leans away. The readings of two parallel tubes add up to 180°.",
  tube: (n: 1 | 2): readonly [string, string, string] => [`Tube ${n} is`, "by", "and reads"],
  string: "Along the string",
  tape: "Tape",
  over: "outside to outside",
  inside: "inside to inside",
  bar: ["The new bar is", "by"],
  twist: ["Chalk of tube 2 is turned", "from that of tube 1, clockwise, seen from 1 to 2"],
  finder: "Angle finder, error ±",
  units: "Units",
  unit: { mm: "millimetres", in: "inches" },
  ways: ["clockwise", "counter-clockwise"],
  example: "example",
  examples: "Replace each example by your own figure: tap it. OK keeps one that is right.",
  confirm: "All are right",
  named: (quantity: string, figure: string): string => `${quantity}: ${figure}`,
  picture: (one: number, two: number): string =>
    `Two tubes and a string. From the string to the chalked half: ${one}° at tube 1, ${two}° at tube 2.`,
  pictureNote: "Chalk mark: the half at which both angles are read. Not to scale.",
} as const;

/** Each measure by its name. */
export const MEASURES = {
  od1: "Tube 1, outside diameter",
  wall1: "Tube 1, wall",
  od2: "Tube 2, outside diameter",
  wall2: "Tube 2, wall",
  od: "New bar, outside diameter",
  wall: "New bar, wall",
  over: "Distance along the string, outside to outside",
  between: "Distance along the string, inside to inside",
  reading1: "Reading at tube 1",
  reading2: "Reading at tube 2",
  twist: "Twist of tube 2",
  trust: "Angle finder, error ±",
} as const;

/** What is wrong with a measure, after its name. */
export const WRONG_MEASURE = {
  size: "enter more than nothing",
  wall: "enter less than half the outside diameter",
  angle: (least: number, most: number): string =>
    `enter an angle between string and tube from ${least}° to ${most}°`,
  twist: "enter a turn from −180° to 180°",
  short: "enter a longer distance: no room for a bar is left between the two tubes",
} as const;

/** What the bar comes to. */
export const BETWEEN_BAR = {
  netLength: "Net length",
  netLengthIs: "long point to long point, before notching",
  centres: (apart: string): string => `Centre to centre of the tubes ${apart}.`,
  notches: (A: string, B: string): string => `The notches take off ${A} at tube 1 and ${B} at tube 2.`,
  allowance: "Allowance",
  allowances: (A: string, B: string, sawTo: string): string =>
    `${A} at tube 1, ${B} at tube 2: saw to ${sawTo}`,
  why: (error: number): string =>
    `The angle finder has an error of ± ${error}°. The first cut may need another, and this much tube lets it clean up.`,
  end: (end: "A" | "B"): string => `End ${end}`,
  onTube: (end: "A" | "B", tube: 1 | 2): string => `End ${end}, on tube ${tube}`,
  wrap: "wrap",
  offSquare: (saw: string): string => `off square, hole saw ${saw}`,
} as const;

/** How it becomes part of a job. */
export const ADD_TO_JOB = {
  button: "Add it to a job",
  title: "Add the bar to a job",
  here: (job: string): string => `This job: ${job}`,
  hereNote: "at the car's datum; move it at the Wall",
  fresh: "A new job",
  freshNote: "with both tubes",
  unnamed: "Job without a name",
  command: "add the bar between two tubes",
} as const;
