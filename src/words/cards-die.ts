/** The card of a die: what its test bends say. */
export const DIE_CARD = {
  title: (die: string): string => `Die card — ${die}`,
  document: "Die card",
  tube: "Tube",
  tests: "Test bends",
  springback: "SPRINGBACK",
  unknown: "not known",
  line: (k: number, c: number): string =>
    `${k.toFixed(3)} × set${c === 0 ? "" : ` ${c < 0 ? "−" : "+"} ${Math.abs(c).toFixed(2)}°`}`,
  lineError: (k: number, c: number | undefined): string =>
    `angle that comes out, ± ${k.toFixed(3)} per degree${c === undefined ? "" : ` and ± ${c.toFixed(2)}°`}`,
  given: "angle that comes out, as given for the die",
  noTests: "Make two test bends, 30° and 90° or more: no test bend is listed.",
  radius: "CENTRELINE RADIUS",
  radiusError: (sd: string, clr: string): string =>
    `± ${sd}, from the test bends. The die is listed with ${clr}.`,
  radiusGiven: "as listed for the die, not measured",
  radiusNone: "as listed: the legs of the test bends can't be true. Measure them again.",
  arcFactor: "ARC FACTOR",
  arcError: (sd: number): string => `± ${sd.toFixed(3)}, from the test bends`,
  arcTaken: "taken as 1, not measured",
  arcGiven: "as listed for the die, not measured",
  settings: "What to set",
  columns: ["Bend wanted", "Set", "±", "Bend start to corner", "Tube in the bend", "Shorter"],
  columnsAre:
    "Bend start to corner: on the centreline, each side. Shorter: the tube's way round, against both legs to the corner.",
  longer: (size: string): string => `${size} longer`,
  cannotSet: "beyond the die",
  notKnown: "not known",
  plot: "Set against measured",
  limits: "What the bender needs",
  needs: (
    clamp: string,
    between: string,
    tail: string,
    most: string,
    mark: string,
    side: "at" | "tail" | "fed",
  ): string =>
    `Straight for the clamp: ${clamp}. Between bends: ${between}. Behind the last bend: ${tail}. Largest angle: ${most}. ` +
    `Mark: ${side === "at" ? "at the start of the bend" : `${mark} from the start of the bend, toward ${side === "tail" ? "the tail" : "the end fed first"}`}.`,
  test: (n: number, set: string, got: string, legs: string): string =>
    `Test bend ${n}: set ${set}, measured ${got}${legs}.`,
  legs: (A: string, B: string, stick: string): string =>
    `; outside legs ${A} and ${B}, ${stick} before bending`,
} as const;

/** Set against measured, drawn. */
export const DIE_PLOT = {
  got: "angle measured",
  set: "angle set",
  off: "off the line",
  test: (n: number): string => `${n}`,
  label: (tests: number): string => `Set against measured of ${tests} test bends, with the springback line.`,
  note: "Solid: springback line, thin: no springback. Below: each test bend off that line, larger, with the ± of the line in grey.",
} as const;
