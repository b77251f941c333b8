/** What a material weighs and how stiff it is. */
export interface Material {
  /** kg/m³. */
  readonly density: number;
  /** Young's modulus E (N/mm²). */
  readonly young: number;
  /** Shear modulus G (N/mm²). */
  readonly shear: number;
}

/** Poisson's ratio of steel (from memory). */
const POISSON = 0.3;
/** Young's modulus of steel (N/mm²), as trade-checks C5 has it. */
const YOUNG = 205_000;

/**
 * Carbon and low-alloy steel, whatever the job calls its tube: other metals differ. Density as EN 10220 and EN 10210
 * reckon their masses; G = E/(2(1 + ν)).
 */
export const STEEL: Material = { density: 7850, young: YOUNG, shear: YOUNG / (2 * (1 + POISSON)) };
