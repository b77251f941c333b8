import { STEEL } from "./steel.ts";
import type { Walls } from "./tube.ts";

/** A round hollow section (mm, mm², mm³, mm⁴, kg/m). */
export interface Section {
  readonly area: number;
  /** Second moment of area about a diameter. */
  readonly inertia: number;
  /** Polar: twice the second moment. */
  readonly torsion: number;
  readonly elasticModulus: number;
  readonly plasticModulus: number;
  readonly radiusOfGyration: number;
  readonly massPerMetre: number;
}

/**
 * Section properties of a tube of outside diameter `od` and `wall` (mm), of a material of `density` (kg/m³).
 * A = π(D² − d²)/4, I = π(D⁴ − d⁴)/64, W_el = 2I/D, W_pl = (D³ − d³)/6, I_t = 2I, i = √(I/A) (EN 10210-2, annex B,
 * from memory). Exact for the nominal size; real tube varies within its standard's tolerances.
 */
export function sectionOf({ od, wall }: Walls, density = STEEL.density): Section {
  const bore = od - 2 * wall;
  const area = (Math.PI * (od ** 2 - bore ** 2)) / 4;
  const inertia = (Math.PI * (od ** 4 - bore ** 4)) / 64;
  return {
    area,
    inertia,
    torsion: 2 * inertia,
    elasticModulus: (2 * inertia) / od,
    plasticModulus: (od ** 3 - bore ** 3) / 6,
    radiusOfGyration: Math.sqrt(inertia / area),
    massPerMetre: area * density * 1e-6,
  };
}
