/** Who decides: wherever a rule, a force, a strength or a danger is shown, in these words and no others. */
export const WHO_DECIDES =
  "Findings and figures advise. The rule book in force, local codes, the organiser's inspector and a licensed engineer " +
  "decide. Welds are made and inspected by qualified people.";

/** Beside every force. */
export const FORCES = "A force is by a linear model: use it to compare, not to approve.";

/** On everything that prints at true size. */
export const TRUE_SIZE = "Print at 100 %, actual size, and measure the check marks with a tape before use.";

/** What can hurt a person at a step of the work: what to do first, then why. */
export const CAUTIONS = {
  saw:
    "Wear eye and hearing protection and no gloves: a turning blade pulls gloves in. " +
    "Clamp the tube, hold the offcut and deburr: fresh edges cut.",
  bender:
    "Keep hands, sleeves and feet clear of die, roller and swinging tube: they pinch and strike. " +
    "Wear eye protection. Never bend sealed or filled tube: it can burst.",
  notcher:
    "Wear eye and hearing protection and no gloves: a turning hole saw pulls gloves in. " +
    "Clamp the tube: the saw grabs as it breaks through. Deburr inside and out: fresh edges cut.",
  "hot cutting":
    "Strip zinc and other coatings before torch, plasma or welding: zinc fumes are poisonous. " +
    "Wear eye, hand and breathing protection. Take paper off before cutting hot.",
  grinding:
    "Wear a face shield, hearing and breathing protection at the grinder: sparks and broken wheels fly. Keep its guard on.",
  lifting: "Lift a hoop or long bar with two people and catch its free end: it tips and swings.",
  "axle stands":
    "Put the car on axle stands rated for car, cage and people: a jack alone can drop it. Check before anyone gets in or under.",
  "open body": "Brace the body before roof or panels come off: without them it is weak and folds.",
  sprung:
    "Clamp a sprung bar and keep out of its path: released, it strikes with the force shown. It keeps pulling at its tacks.",
  airbags:
    "Before welding, disconnect the battery and take out airbags and belt tensioners: heat or current can fire them.",
  tank: "Take out battery, tank, fuel lines and trim before sparks or flame: fuel and battery gas explode.",
  "fire watch":
    "Keep a fire watch with an extinguisher during hot work and after it: trim and sealer smoulder unseen.",
} as const;

/** A step of the work that has a caution of its own. */
export type Step = keyof typeof CAUTIONS;

/** The cautions of one or more steps, in the order given, as one run of sentences. */
export const cautionFor = (...steps: readonly Step[]): string =>
  steps.map((step) => CAUTIONS[step]).join(" ");
