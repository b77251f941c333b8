import { DECIMAL_INCHES } from "../../core/units/index.ts";
import { UNITS } from "../../words/index.ts";

/** How a job shows lengths: `fraction` 1000 writes inches as decimals, any other parts of an inch. */
interface Show {
  readonly length: "mm" | "in";
  readonly fraction: number;
}

interface UnitChoice {
  readonly id: string;
  readonly says: string;
  /** Without a fraction the job's own stays, for when inches are chosen again. */
  readonly show: { readonly length: "mm" | "in"; readonly fraction?: number };
}

const inches = (fraction: number): UnitChoice => ({
  id: `in ${fraction}`,
  says: fraction === DECIMAL_INCHES ? UNITS.decimal : UNITS.part(fraction),
  show: { length: "in", fraction },
});

/** The units that a shop can choose from. */
export const UNIT_CHOICES: readonly UnitChoice[] = [
  { id: "mm", says: UNITS.mm, show: { length: "mm" } },
  ...[8, 16, 32, 64, DECIMAL_INCHES].map(inches),
];

/** The choice that a job has; a file may have other parts of an inch (1/128), which are named though not offered. */
export const unitsOf = ({ length, fraction }: Show): UnitChoice => {
  const id = length === "mm" ? "mm" : `in ${fraction}`;
  return UNIT_CHOICES.find((choice) => choice.id === id) ?? inches(fraction);
};
