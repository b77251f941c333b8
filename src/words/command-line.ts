import type { Phrase } from "../core/findings/index.ts";
import { sayHint, sayLength } from "./job.ts";
import { counted, inLine } from "./text.ts";

/** What `tubewright help COMMAND` explains. */
export interface CommandHelp {
  /** One line for the list of commands. */
  readonly about: string;
  readonly usage: string;
  /** What to give it, and what it does with that. */
  readonly options: readonly (readonly [option: string, does: string])[];
  readonly notes?: readonly string[];
  /** A call that runs on the demo job. */
  readonly example: string;
}

const BAR = ["--bar ID", "this bar alone; without it, all bars"] as const;
const JSON_OUT = ["--json", "one JSON object, in millimetres and degrees"] as const;
const PAPER = ["--paper A4|Letter", "the printer's paper; A4 without it"] as const;
const DEMO = "demo/sandling.json";

export const COMMANDS = {
  bend: {
    about: "saw to, net length, marks, angles to set, turns, and what to check after every bend",
    usage: "tubewright bend JOB [--bar ID] [--json]",
    options: [BAR, JSON_OUT],
    notes: ["Marks are measured from the sawn end that is fed first."],
    example: `tubewright bend ${DEMO} --bar pillar-bar-left`,
  },
  cope: {
    about: "the curve of every end, its hole saw setting, hole centre and gap; --steps plans the cuts",
    usage:
      "tubewright cope JOB [--bar ID] [--end A|B] [--every DEG] [--steps] [--first DEG | --range LOW..HIGH] [--json]",
    options: [
      BAR,
      ["--end A|B", "this end alone"],
      ["--every DEG", "the step round the tube, 0.01 to 180 degrees; 15 without it"],
      ["--steps", "the cuts from a shallow first one to the final one"],
      ["--first DEG", "the angle off square to start from, 0 to 85 degrees"],
      ["--range LOW..HIGH", "the angles off square that it may be, such as 44..52"],
      JSON_OUT,
    ],
    notes: ["Clocks count from the zero line, counter-clockwise looking at the cut end."],
    example: `tubewright cope ${DEMO} --bar harness-bar --end A --steps`,
  },
  die: {
    about: "the true radius, springback and growth of a die, from test bends",
    usage: "tubewright die JOB [--die ID] [--test SET,GOT[,LEG,LEG,STICK]]… [--json]",
    options: [
      ["--die ID", "this die alone; needed with --test where the job has several"],
      [
        "--test SET,GOT[,LEG,LEG,STICK]",
        "one test bend more: degrees set and got, then both outside legs and the stick",
      ],
      JSON_OUT,
    ],
    example: `tubewright die ${DEMO} --die d40 --test 30,27.6 --test 90,86.1`,
  },
  cards: {
    about: "bender and notcher cards, wraps at true size, mark strips, an overview and the readings",
    usage:
      "tubewright cards JOB --out DIR [--bar ID] [--paper A4|Letter] [--paper-thickness LENGTH] [--csv] [--json]",
    options: [
      ["--out DIR", "the folder for the files; a run takes away what the run before made"],
      BAR,
      PAPER,
      ["--paper-thickness LENGTH", "of the wraps' paper, at most 1 mm; 0.1 mm without it"],
      ["--csv", "tables of bars, bends and ends beside the cards"],
      JSON_OUT,
    ],
    notes: [
      "Each PDF has one check square; each wrap page of a bar holds both ends for one cutter.",
      "Print at 100 % and measure the check square before use.",
      "Cards are counted in the job when the app issues them; this command never writes a job.",
    ],
    example: `tubewright cards ${DEMO} --bar harness-bar --out out`,
  },
  print: {
    about: "one PDF of several bars and sheets, with one count of pages and one check square",
    usage:
      'tubewright print JOB --out FILE.pdf [--bars "ID,ID,…"] [--sheets NAME,NAME,…] [--paper A4|Letter] [--paper-thickness LENGTH] [--json]',
    options: [
      ["--out FILE.pdf", "the file; one that is there is replaced"],
      ['--bars "ID,ID,…"', "these bars, in this order; without it, all bars"],
      [
        "--sheets NAME,NAME,…",
        "bender, notcher, saw-wraps, torch-wraps, strip, trestles; overview, order, measuring, readings",
      ],
      PAPER,
      ["--paper-thickness LENGTH", "of the wraps' paper, at most 1 mm; 0.1 mm without it"],
      JSON_OUT,
    ],
    notes: [
      "Without --sheets it has all sheets to make a bar.",
      "Print at 100 % and measure the check square before use.",
      "The order sheet has the job's order, no bar checked; fit --out checks them.",
    ],
    example: `tubewright print ${DEMO} --bars harness-bar,dash-bar --sheets notcher,saw-wraps --out out/print.pdf`,
  },
  fit: {
    about: "whether each bar goes in: its way, an order, and the springing it needs",
    usage: 'tubewright fit JOB [--bar ID] [--order "ID,ID,…"] [--gap MM] [--overlong MM] [OPTION …]',
    options: [
      BAR,
      ['--order "ID,ID,…"', "the order to check; bars left out come last"],
      ["--gap MM", "gap at every joint, 0 to 20 mm; 0 without it"],
      ["--overlong MM", "how a bar too long by this rests, 0 to 50 mm"],
      ["--seconds N", "the longest search, 1 to 86400 seconds; 300 without it"],
      ["--seed N", "where the search starts; 1 without it"],
      ["--threads N", "threads at work, 1 to 64"],
      ["--progress", "a line for each bar as it is checked"],
      ["--out DIR", "a folder for the order sheet, order.pdf"],
      PAPER,
      JSON_OUT,
    ],
    example: `tubewright fit ${DEMO} --order main-hoop,harness-bar --bar harness-bar`,
  },
  survey: {
    about: "where the points of the car are, from the readings, with their errors and misfits",
    usage: "tubewright survey JOB [--json]",
    options: [JSON_OUT],
    example: `tubewright survey ${DEMO}`,
  },
  gaps: {
    about: "the true angle of a joint and its next cut, from gaps read round it",
    usage:
      'tubewright gaps JOB --bar ID --end A|B --cut DEG --read "PHI:GAP,…" [--roll DEG] [--outboard LENGTH] [--along] [--sd MM] [--json]',
    options: [
      ["--bar ID", "the bar"],
      ["--end A|B", "its end"],
      ["--cut DEG", "the angle off square that was cut, 0 to 85 degrees"],
      ['--read "PHI:GAP,…"', "gaps by clock, such as 0:0.4,45:0.9; four or more"],
      ["--roll DEG", "how far the cut was clocked past the card, −180 to 180 degrees"],
      ["--outboard LENGTH", "how far outboard of the final place the hole was cut"],
      ["--along", "gaps read along the bar, not square to the host"],
      ["--sd MM", "one standard deviation of a gap, 0.001 to 10 mm; 0.25 without it"],
      JSON_OUT,
    ],
    notes: ["A gap without a unit is in the unit that the job shows."],
    example: `tubewright gaps ${DEMO} --bar harness-bar --end A --cut 8 --read "0:0.4,45:0.6,90:0.9,135:0.8,180:0.3,225:0.4,270:0.2,315:0.3"`,
  },
  trestles: {
    about: "what a bent bar really is, from readings before its ends are cut, and what to do with it",
    usage:
      'tubewright trestles JOB --bar ID --read "end-to-end:1554,leg-B:671,across-1-3:900,off-flat-B:905,angle-2:43.2" [--slide MM] [--aside MM] [--json]',
    options: [
      ["--bar ID", "the bar"],
      [
        "--read NAME:SIZE,…",
        "end-to-end, leg-A or leg-B, across-LEG-LEG, off-flat-A or off-flat-B, angle-BEND",
      ],
      ["--slide MM", "how far it may shift along its hosts, 0.1 to 500 mm; 10 without it"],
      ["--aside MM", "how far it may shift across, 0.1 to 500 mm; 10 without it"],
      JSON_OUT,
    ],
    notes: ["A size without a unit is in the unit that the job shows; an angle is in degrees."],
    example: `tubewright trestles ${DEMO} --bar pillar-bar-left --read "end-to-end:1563,leg-B:671.4,angle-2:42"`,
  },
  tacked: {
    about: "where tacked bars really are, from readings on them, and which cards that changes",
    usage:
      'tubewright tacked JOB --bar ID [--bar ID …] --read "tape:SPOT:SPOT:1250,height:SPOT:1085" [--foot MM] [--lean DEG] [--json]',
    options: [
      ["--bar ID", "a tacked bar; name both bars of a cross tape"],
      [
        "--read KIND:SPOT:SIZE,…",
        "tape, tape-inside, tape-centre, height (over the top), height-under, height-centre, out, fore",
      ],
      ["--foot MM", "how far a foot may have shifted, 0.01 to 100 mm; 2 without it"],
      ["--lean DEG", "how far it may lean, 0.01 to 20 degrees; 0.3 without it"],
      JSON_OUT,
    ],
    notes: ["A SPOT is a point of the job or BAR@ALONG; a tape has two of them."],
    example: `tubewright tacked ${DEMO} --bar harness-bar --read "height:harness-bar@596:826"`,
  },
  change: {
    about: "what a changed job does to the bars that are made: still good, saw off, make again",
    usage: "tubewright change OLD.json NEW.json [--loose ID,...] [--json]",
    options: [
      ["--loose ID,...", "tacked bars that are cut loose and moved; without it, they stay"],
      JSON_OUT,
    ],
    notes: ["OLD says which bars are made, and to what; NEW is what is wanted now."],
    example: `tubewright change ${DEMO} ${DEMO}`,
  },
  reuse: {
    about: "a made bar: which other bar of the job it could become, and which piece on the rack replaces it",
    usage: "tubewright reuse JOB --bar ID [--json]",
    options: [["--bar ID", "the bar; needed"], JSON_OUT],
    example: `tubewright reuse ${DEMO} --bar pillar-bar-left`,
  },
  errors: {
    about: "what each bar may be off by, which step or place matters most, and what allowance covers it",
    usage: "tubewright errors JOB [--bar ID] [--confidence PERCENT] [--samples N] [--seed N] [--json]",
    options: [
      BAR,
      ["--confidence PERCENT", "of what is stated, 50 to 99.9 %; 95 without it"],
      ["--samples N", "bars drawn by chance, 100 to 1000000; 2000 without it"],
      ["--seed N", "of the chance; 1 without it"],
      JSON_OUT,
    ],
    example: `tubewright errors ${DEMO} --bar pillar-bar-left`,
  },
  check: {
    about: "every finding, gravest first",
    usage: "tubewright check JOB [--bar ID] [--json]",
    options: [BAR, JSON_OUT],
    example: `tubewright check ${DEMO} --bar pillar-bar-left`,
  },
  schema: {
    about: "the job file's format as JSON Schema",
    usage: "tubewright schema",
    options: [],
    example: "tubewright schema",
  },
  serve: {
    about: "serves the app and a folder of jobs, on this machine alone or to a shop's devices",
    usage:
      "tubewright serve [FOLDER | JOB] [--port N] [--shop [--secure-port N] [--name NAME] [--database URL]]",
    options: [
      ["FOLDER | JOB", "the folder of jobs, or a job to open first; without it, this folder"],
      ["--port N", "1 to 65535; 8734 without it. A browser keeps jobs by port"],
      ["--shop", "opens the folder's jobs to devices that have joined, on the local network"],
      ["--secure-port N", "the port of the shop's secure address; 8735 without it"],
      ["--name NAME", "what the shop is called; the folder's name without it"],
      ["--database URL", "PostgreSQL for many shops or servers; SQLite in the folder without it"],
    ],
    notes: ["Stop it with Ctrl-C."],
    example: `tubewright serve ${DEMO}`,
  },
} as const satisfies Record<string, CommandHelp>;

export type CommandName = keyof typeof COMMANDS;

const UNITS =
  "Units: lengths print in the unit that the job shows. Type a length in any shop notation: 312.5 mm, 12 5/16 in, 1' 3-1/2\".";
const EXITS =
  "Exit code 0: answered. 1: a bar has no answer, the others are answered. 2: the call or the file is wrong.";

/** The list of commands. */
export function sayCommands(): string {
  const list = Object.entries<CommandHelp>(COMMANDS).map(
    ([name, { about }]) => `  ${name.padEnd(10)}${about}`,
  );
  return `tubewright: from a job file to marks, cuts and cards\n\n${list.join("\n")}\n\ntubewright help COMMAND explains one, with an example.\n`;
}

/** One command: what it does, its options, its units, its exit codes and an example. */
export function sayCommand(name: CommandName): string {
  const { about, usage, options, notes = [], example }: CommandHelp = COMMANDS[name];
  const wide = Math.max(0, ...options.map(([option]) => Math.min(option.length, 24)));
  const lines = options.map(([option, does]) =>
    option.length > wide
      ? `  ${option}\n  ${" ".repeat(wide)}  ${does}`
      : `  ${option.padEnd(wide)}  ${does}`,
  );
  const parts = [
    `${name}: ${about}`,
    usage,
    ...(lines.length > 0 ? [lines.join("\n")] : []),
    [...notes, UNITS, EXITS].join("\n"),
    `Example:\n  ${example}`,
  ];
  return `${parts.join("\n\n")}\n`;
}

/** What is wrong with a call, each one line. */
export const CALL = {
  noCommand: (name: string, close: string | undefined): string =>
    `there is no command "${name}"${sayHint(close, "; tubewright help lists them")}`,
  usage: (usage: string): string => `usage: ${usage}`,
  noOption: "there is no option",
  number: (name: string, value: string, low: number, high: number): string =>
    `--${name} ${value}: give a number from ${low} to ${high}`,
  noJob: "name a job file",
  oneJob: (extra: string): string => `one job file at a time; "${extra}" is one too many`,
  oneFolder: (extra: string): string => `one folder or job at a time; "${extra}" is one too many`,
  noBar: (bar: string, close: string | undefined, option: string): string =>
    `--${option} ${bar}: the job has no bar of that name${sayHint(close)}`,
  outFile: "name the file with --out FILE.pdf",
  noSheet: (name: string, close: string | undefined, known: readonly string[]): string =>
    `--sheets: no sheet is called "${name}"${close === undefined ? `; there are ${inLine(known)}` : sayHint(close)}`,
  noGeometry: (bar: string): string => `bars.${bar}: has no geometry; tubewright check says why`,
  broken: (fault: string): string => `nothing is printed: a fault of this program, in the answer ${fault}`,
  notFinite: (place: string): string => `${place} is no finite number`,
  nothing: (place: string): string => `${place} is nothing`,
  noFile: "schema takes no file",
  end: (end: string): string => `--end ${end}: a bar has an end A and an end B`,
  firstOrRange: "give --first or --range, not both",
  range: (range: string): string => `--range ${range}: give two angles off square, like 44..52`,
  paper: (paper: string): string => `--paper ${paper}: A4 or Letter`,
  out: "name a folder with --out DIR",
  thickness: (text: string): string => `--paper-thickness ${text}: paper is at most 1 mm thick`,
  length: (option: string, text: string, why: Phrase): string => `--${option} ${text}: ${sayLength(why)}`,
  port: (port: number): string => `--port: ${port} is no port; give a whole number`,
  noPath: (path: string): string => `${path}: there is no such folder or job file`,
  noDie: (die: string, close: string | undefined): string =>
    `--die ${die}: the job has no die of that name${sayHint(close)}`,
  whichDie: (dies: readonly string[]): string => `name the die of the tests with --die (${dies.join(", ")})`,
  test: (value: string): string => `--test ${value}: give set,got or set,got,leg A,leg B,stick`,
  nameBar: "name the bar with --bar",
  nameTacked: "name the tacked bar with --bar",
  nameEnd: "name the end with --end A or --end B",
  giveCut: "give the angle that was cut with --cut, in degrees off square",
  giveGaps: 'give the gaps with --read "0:0.4,45:0.9,…"',
  giveBent: 'give the readings with --read "end-to-end:1554,angle-2:43.2"',
  giveTacked: 'give the readings with --read "height:BAR@ALONG:1085"',
  gap: (part: string): string => `--read ${part}: give each gap as degrees:gap, as in 45:0.9`,
  gapBelow: (part: string): string => `--read ${part}: a gap is 0 or more`,
  orderNoBar: (id: string, close: string | undefined): string =>
    `--order: no bar is called "${id}"${sayHint(close)}`,
  orderTwice: (id: string): string => `--order: ${id} is in the list twice`,
  readSize: (part: string): string => `--read ${part}: give each as name:size`,
  readName: (part: string, name: string): string =>
    `--read ${part}: no reading is called "${name}". There are end-to-end, leg-A or leg-B, across-LEG-LEG, off-flat-A or off-flat-B (off-flat-B-2 over bend 2), angle-BEND`,
  read: (part: string, why: Phrase): string => `--read ${part}: ${sayLength(why)}`,
  readKinds: (part: string, kinds: readonly string[]): string =>
    `--read ${part}: there are ${kinds.join(", ")}`,
  readSpots: (part: string, kind: string, spots: number): string =>
    `--read ${part}: give ${kind}:${Array.from({ length: spots }, () => "SPOT").join(":")}:size`,
  readOnBar: (part: string, bar: string): string => `--read ${part}: name a spot on ${bar}, as ${bar}@400`,
  readOther: (part: string, bars: readonly string[], bar: string): string =>
    `--read ${part}: a spot is on ${bars.join(" or ")} or is a point, not on ${bar}. Name that with another --bar if it is tacked too`,
  readPast: (part: string, bar: string, length: string): string => `--read ${part}: ${bar} is ${length} long`,
  readPoint: (part: string, spot: string, close: string | undefined): string =>
    `--read ${part}: no known point is called "${spot}"${sayHint(close)}`,
} as const;

/** While a command is at work, and what it wrote. */
export const WORK = {
  figured: "bars figured",
  checked: "bars checked",
  drawn: "files drawn",
  barsDrawn: "bars drawn",
  progress: (what: string, done: number, of: number): string => `${what}: ${done} of ${of}`,
  made: (count: number, folder: string, csv: boolean): string =>
    `${count} files in ${folder}: overview.pdf, bars/, wraps/${csv ? ", tables" : ""}`,
  others: (count: number): string => `files of other bars stay: ${count}`,
  gone: (names: readonly string[]): string =>
    `removed, made by a run before and not by this one: ${some(names)}`,
  old: (names: readonly string[]): string =>
    `warning: run cards without --bar: the job has changed since these were made: ${some(names)}`,
  kept: (name: string, as: string, changed: boolean): string =>
    `warning: ${name} ${changed ? "was changed since it was made" : "was there already"}; ${as === name ? "left as it is" : `kept as ${as}`}`,
  stopped: (folder: string, state: string): string => `${folder}: stopped; ${state}`,
  unwritten: (folder: string, why: string): string => `${folder}: ${why}; nothing was written`,
  orderSheet: (path: string): string => `the order sheet is ${path}`,
  noPanel: (panel: string): string =>
    `warning: body.panels.${panel}: its edge and openings make no sheet; it blocks nothing`,
  nothingFound: "no findings",
  severity: (severity: string, count: number): string =>
    `${severity === "danger" ? "DANGER" : severity} (${count})`,
} as const;

/** A few names of many. */
const some = (names: readonly string[]): string =>
  names.length <= 12 ? names.join(", ") : `${names.slice(0, 10).join(", ")} and ${names.length - 10} more`;

/** Why a file or a folder cannot be used, by the code of the operating system. */
export const REASONS: Readonly<Record<string, string>> = {
  ENOENT: "there is no such file",
  EISDIR: "that is a folder; name the job file in it",
  EACCES: "this user may not open it",
  EPERM: "this user may not do that there",
  ENOTDIR: "a part of that path is a file, not a folder",
  EEXIST: "a file of that name is in the way; name a folder",
  EROFS: "that disk is read-only",
  ENOSPC: "the disk is full",
  EDQUOT: "this user's share of the disk is full",
  ENXIO: "that is a pipe or a device; save the job as a file and name that",
  EBUSY: "it is in use, or the top of a disk; name a folder in it",
  EXDEV: "the folder cannot be moved as one piece; name another",
  ELOOP: "its links run in a circle",
  ENAMETOOLONG: "that name is too long",
};

export const FILES = {
  system: (code: string): string => `the system says ${code || "no"}`,
  tooLarge: (megabytes: number): string => `${megabytes} MB is no job file`,
  brokenLink: (why: string): string => `that is a link to nothing (${why})`,
  here: "that is where you are, or above it; name a folder for the cards, such as cards",
  notFolder: "that is a file; name a folder",
  busy: (others: readonly string[]): string =>
    `another run writes there now; wait until it ends (if none runs, delete ${inLine(others)})`,
} as const;

/** What the command `print` answers. */
export const PRINT_ANSWER = {
  made: (file: string, pages: number, trueSize: readonly number[]): string =>
    `${file}: ${counted(pages, "page")}${trueSize.length === 0 ? "" : `; print at 100 %: true size counts on ${counted(trueSize.length, "page")} (${trueSize.join(", ")})`}`,
  noSheet: (bar: string): string => `bars.${bar}: has none of these sheets`,
  nothing: (file: string): string => `${file}: there is nothing to print; nothing was written`,
} as const;
