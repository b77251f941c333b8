import { counted } from "./text.ts";

/** The sheets of the job beside its bars: dies, points, shop, driver, body, rack, each figure by its name. */

export const DIE_SHEET = {
  tests: "Test bends",
  test: (n: number): string => `Test bend ${n}`,
  newTest: "New test bend",
  removeTest: (n: number): string => `Delete test bend ${n}`,
  set: "angle set",
  got: "angle measured",
  leg: (end: "A" | "B"): string => `outside leg ${end}`,
  stick: "length before bending",
  notMeasured: "not measured",
  skipLegs: "Legs not measured: springback only",
  addLegs: "Enter both legs",
  arcFactor: "arc factor",
  one: "1, not measured",
  springback: (die: string): string => `Springback of die ${die}, as given`,
  enterSpringback: "Enter known springback",
  removeSpringback: (die: string): string => `Delete the springback given for die ${die}`,
  k: "angle made per degree set",
  c: "degrees added",
  moreOrLess: ["more", "less"],
} as const;

export const POINT_SHEET = {
  error: "error, ±",
  exact: "exact",
  ways: "error by direction",
  alike: "the same every way",
  each: "each way by itself",
  errors: ["error forward, ±", "error left, ±", "error up, ±"],
} as const;

export const BAR_SHEET = {
  title: (bar: string): string => `${bar}: notch angles, roof`,
  button: "Notch angles, roof",
  believed: (end: "A" | "B", part = ""): string => `notch angle believed, end ${end}${part}`,
  fromTo: [", least", ", most"],
  fromCar: "as laid out",
  known: (end: "A" | "B"): string => `how it is known, end ${end}`,
  one: "one angle",
  range: "from one angle to another",
  needs: "body while it goes in",
  either: "body on or off",
} as const;

export const SHOP_SHEET = {
  joints: "Saw and joints",
  bender: "Bender",
  notcher: "Notcher",
  usual: (value: string): string => `${value}, as usual`,
  wrapBeyond: "gap beyond which the wrap is used",
  asGap: "the gap accepted",
  saws: "Hole saws",
  saw: (n: number): string => `Hole saw ${n}`,
  diameter: "diameter",
  newSaw: "New hole saw",
  removeSaw: (n: number): string => `Delete hole saw ${n}`,
  torch: "Torch",
  torchOd: "greatest diameter at the joint",
  torchLength: "length from the nozzle tip",
  enterTorch: "Enter the torch",
  removeTorch: "Delete the torch",
  errors: "Errors of this shop",
  /** The same without its ±. */
  errorOf: {
    mark: "mark",
    angle: "bend angle",
    turn: "turn",
    tape: "tape",
    slope: "slope",
    height: "height",
    level: "level",
    plumb: "plumb",
  },
  /** Each kind of work or reading. */
  error: {
    mark: "mark on a tube, ±",
    angle: "angle of a bend, ±",
    turn: "turn between bends, ±",
    tape: "length by tape, ±",
    slope: "slope by angle finder, ±",
    height: "height, out or fore, ±",
    level: "two points called level, ±",
    plumb: "two points called plumb, ±",
  },
} as const;

export const DRIVER_SHEET = {
  title: "Driver in the seat",
  hip: "hip point",
  shoulder: "shoulder point",
  torso: "radius kept free round the torso",
  helmet: "centre of the helmet",
  helmetRadius: "radius kept free round the helmet",
  back: "Enter by back angle",
  backTitle: "Shoulder and helmet along the back",
  backHow:
    "Seat the driver, belted, helmet on. Lay the angle finder on the back, tape along it from the hip.",
  needsHip: "Enter the hip point first: shoulder and helmet are figured from it.",
  backAngle: "back angle from the floor",
  toShoulder: "hip to shoulder, along the back",
  toHelmet: "hip to centre of the helmet, along the back",
  backStep: "driver by back angle",
  backShort: "back angle",
  picture: "The driver seen from the left: hip, back angle, shoulder, helmet.",
  pictureNote: "Seen from the left. Back angle: from the floor up to the line of the back.",
} as const;

export const BENDER_SHEET = {
  picture: (side: "left" | "right"): string => `The bender from behind the tail: it bends to the ${side}.`,
  note: "Seen from behind the tail, toward the die. Height: floor to the middle of the tube.",
  bends: "bends",
  height: "height",
} as const;

/** What the test bends of a die say. */
export const DIE_TRUTH = {
  none: "Make two test bends, one of 30° and one of 90° or more: springback and radius follow.",
  label: (die: string): string => `What the test bends of ${die} say`,
  title: "The test bends say",
  wrong: "Measure the legs again: no tube gives such a radius. Neither radius nor arc factor is shown.",
  given: "Delete the springback given below to use the test bends: what is given goes first.",
  springback: "Springback",
  radius: "Centreline radius",
  arcFactor: "Arc factor",
  radiusFrom: (radius: string): string => `Use radius ${radius}`,
  arcFrom: (factor: number): string => `Use arc factor ${factor.toFixed(3)}`,
  step: (die: string, what: string): string => `die ${die}: ${what}`,
} as const;

export const BODY_SHEET = {
  one: { lines: "body line", skin: "skin outline", openings: "opening", panels: "panel" },
  usual: { lines: "Roof rail", skin: "Roof skin", openings: "Door opening", panels: "Floor" },
  named: (what: string, name: string): string => `${name} (${what})`,
  remove: (what: string, name: string): string => `Delete ${what} ${name}`,
  create: (what: string): string => `New ${what}`,
  nameLabel: (what: string): string => `Name of the ${what}`,
  places: "Places, in order",
  place: (n: number): string => `Place ${n}`,
  newPlace: "New place",
  removePlace: (n: number): string => `Delete place ${n}`,
  cutOut: "openings cut out of it",
  roof: "Body and roof",
  comesOff: "comes off with the roof",
} as const;

export const RACK_SHEET = {
  title: "Pieces in stock",
  of: (tube: string): string => `Pieces of ${tube}`,
  tube: "tube",
  pieces: "Lengths",
  piece: (n: number): string => `Piece ${n}`,
  length: "length",
  newPiece: "New piece",
  removePiece: (n: number): string => `Delete piece ${n}`,
  create: "Pieces of a tube",
  remove: (tube: string): string => `Delete the pieces of ${tube}`,
} as const;

/** How figures in a row, places and names are asked. */
export const ASKED = {
  step: (what: string, n: number, count: number): string => (count > 1 ? `${what}, ${n} of ${count}` : what),
  type: "Enter three lengths",
  typeMore: "forward, left, up from the datum",
  point: (id: string): string => `Point ${id}`,
  axis: (what: string, axis: string): string => `${what}: ${axis}`,
  none: "none",
  some: (n: number): string => counted(n, "name"),
  clear: "Delete this figure",
  done: "OK",
  go: (title: string): string => `Enter: ${title}`,
} as const;

/** Ten readings of one thing, and the error that they give. */
export const REPEATED = {
  button: "Measure it",
  buttonOf: (what: string): string => `Measure it: ${what}`,
  why: "Without figures of its own the shop counts with the usual ones. Ten readings of one thing give them.",
  title: (what: string): string => `Ten readings: ${what}`,
  how: {
    mark: "Mark one size ten times, by tape, each time from the end. Measure each mark with a steel rule.",
    angle: "Make ten bends at one setting. Measure each with the angle finder.",
    turn: "Set one turn ten times. Measure each with the angle finder.",
    tape: "Tape one length ten times. Take the tape off between two readings.",
    slope: "Read one slope ten times. Lift the angle finder off between two readings.",
    height: "Read one height ten times. Lift the rule off between two readings.",
    level: "Level two points ten times. Measure each time how far one is above the other.",
    plumb: "Plumb two points ten times. Measure each time how far one is beside the other.",
  },
  add: (n: number): string => `Enter reading ${n}`,
  reading: (n: number): string => `Reading ${n}`,
  change: (n: number, value: string): string => `Reading ${n}: ${value}`,
  left: (n: number): string => `${counted(n, "more reading")} to take.`,
  found: (sd: string, of: string): string => `± ${sd}, itself known to ± ${of}.`,
  floor: "All readings agree as far as the scale shows. Half of one division bounds what it can hide.",
  use: (sd: string): string => `Set the error to ± ${sd}`,
  step: (what: string, sd: string): string => `${what} ${sd}, from ten readings`,
} as const;
