import type { Writer } from "../findings/index.ts";
import { deg } from "../numeric/index.ts";
import type { AsBent } from "./bent.ts";
import type { BentReading } from "./bent-readings.ts";
import type { BarShape } from "./shape.ts";

/** A reading in a person's words. */
export function sayReading(reading: BentReading): string {
  switch (reading.what) {
    case "end-to-end":
      return "end to end";
    case "leg":
      return `the leg at end ${reading.end}`;
    case "across":
      return `outside to outside of legs ${reading.legs[0]} and ${reading.legs[1]}`;
    case "off-flat":
      return `end ${reading.end} off the plane of bend ${reading.bend}`;
    case "angle":
      return `the angle of bend ${reading.bend}`;
  }
}

/** What differs from the bar wanted by more than its own ±, the surest first: "bend 2 is 1.1° ± 0.2° over". */
export function sayDepartures(bent: AsBent, wanted: BarShape, { angle, length }: Writer): string[] {
  const { numbers } = wanted;
  const bends = numbers.length;
  const found = [
    ...bent.shape.angles.map((a, i) => {
      const off = a - wanted.angles[i]!;
      const sd = bent.sd.angles[i]!;
      const size = angle(deg(Math.abs(off)));
      return {
        off,
        sd,
        says: `bend ${numbers[i]} is ${size} ± ${angle(deg(sd))} ${off > 0 ? "over" : "under"}`,
      };
    }),
    ...bent.shape.turns.slice(1).map((t, i) => {
      const off = t - wanted.turns[i + 1]!;
      const sd = bent.sd.turns[i + 1]!;
      const size = angle(deg(Math.abs(off)));
      const way = off > 0 ? "clockwise" : "counter-clockwise";
      return {
        off,
        sd,
        says: `the turn before bend ${numbers[i + 1]} is ${size} ± ${angle(deg(sd))} too far ${way}, seen from end A`,
      };
    }),
    ...bent.shape.straights.map((s, i) => {
      const off = s - wanted.straights[i]!;
      const sd = bent.sd.straights[i]!;
      const name =
        i === 0
          ? "the leg at end A"
          : i === bends
            ? "the leg at end B"
            : `the straight between bends ${numbers[i - 1]} and ${numbers[i]}`;
      return {
        off,
        sd,
        says: `${name} is ${length(Math.abs(off))} ± ${length(sd)} ${off > 0 ? "long" : "short"}`,
      };
    }),
  ];
  return found
    .filter(({ off, sd }) => Math.abs(off) > sd)
    .sort((a, b) => Math.abs(b.off / b.sd) - Math.abs(a.off / a.sd))
    .map((f) => f.says);
}
