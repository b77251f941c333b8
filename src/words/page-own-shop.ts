import { counted, inLine } from "./text.ts";

/** A die from test bends, with no job. */
export const DIE_PAGE = {
  label: "Die and test bends",
  how: "Saw two pieces square, 600 mm or more. Measure each. Bend one to about 30°, one to 90° or more.",
  enter: "Enter what was set, what the angle finder reads, and both outside legs: sawn end to outer corner.",
  legs: "The outer corner is where the outer lines of both legs meet: hold a straight-edge on each leg.",
  result: "What the die does",
  name: "die",
  named: "Name the die",
  nameLabel: "Name of the die",
  units: "Units",
  unit: { mm: "millimetres", in: "inches" },
  card: (die: string): string => `Die card, ${die}`,
  noTests: "Enter a test bend: the card is drawn from it.",
  job: "Dies of this shop",
  add: "Add it to a job",
  addTitle: "Add the die to a job",
  added: (die: string): string => `add die ${die}`,
  fresh: "Clear for another die",
  limits: "What the bender needs",
  settings: "What to set",
  wanted: (angle: string): string => `for ${angle}`,
  keep: "My shop",
  keepMore: "each new job then has it",
  kept: (die: string): string => `Die ${die} is in my shop: each new job has it.`,
} as const;

/** What the device keeps for new jobs. */
export const MY_SHOP = {
  title: "Kept for new jobs",
  what: "Each figure entered in a job is kept here too. New jobs begin with it; a job file holds a copy.",
  none: "Nothing is kept yet: enter tubes, dies and hole saws here, or take them from the open job.",
  has: (c: {
    readonly tubes: number;
    readonly dies: number;
    readonly tests: number;
    readonly saws: number;
  }): string =>
    `${inLine([
      ...(c.tubes > 0 ? [counted(c.tubes, "tube")] : []),
      ...(c.dies > 0 ? [counted(c.dies, "die")] : []),
      ...(c.tests > 0 ? [counted(c.tests, "test bend")] : []),
      ...(c.saws > 0 ? [counted(c.saws, "hole saw")] : []),
      "figures of bender, notcher and shop",
    ])}.`,
  figures: "Tubes, dies and shop",
  begin: "Enter my shop",
  take: (job: string): string => `Replace by the shop of ${job}`,
  takeTitle: "Replace what is kept?",
  takeMore: (now: string, then: string): string => `Kept now: ${now} After: ${then}`,
  save: "Save as a file",
  fileName: "My shop",
  forget: "Delete what is kept",
  forgetTitle: "Delete what is kept for new jobs?",
  forgetMore: "Jobs keep their own copy. New jobs then begin with nothing.",
  forgetIt: "Delete",
  replaceIt: "Replace",
  cancel: "Cancel",
} as const;
