/** What can hurt a person at a station, in plain words; printed on every card of that station. */
export const CAUTIONS = {
  bender:
    "Keep hands, sleeves and feet clear of die, roller and swinging tube: they pinch, and a long leg sweeps. Eye " +
    "protection. Deburr sawn ends. Never bend sealed or filled tube. Coated or oily tube gives fumes when heated or welded: strip it first.",
  saw:
    "Eye and hearing protection; no gloves near a turning blade. Clamp the tube, hold the offcut, deburr: fresh edges cut. " +
    "Coated tube gives fumes when cut hot: strip it and breathe clean air.",
  notcher:
    "Eye, hearing and breathing protection at saw, grinder and torch; no gloves near a turning saw. Clamp the tube: a hole saw " +
    "grabs as it breaks through. Hot cuts on coated tube give poisonous fumes: strip it first. Deburr inside and out.",
  wrap: "Eye, hand and breathing protection at grinder and torch; fire watch; strip coatings first. Take the paper off before cutting hot.",
  welding:
    "The rule book in force, the organiser's inspector and local codes decide; figures here advise. Welds are made and inspected by " +
    "qualified people. In the car: battery off, fire watch, tank and trim out.",
} as const;
