import { normal, seeded } from "../../src/core/numeric/index.ts";
import type { Vec } from "../../src/core/space/index.ts";

/** Where the punch marks of an invented car really are (mm): datum first. */
export const SHELL: Readonly<Record<string, Vec>> = {
  origin: [0, 0, 0],
  ahead: [1600, 0, 0],
  aside: [0, 700, 0],
  "sill-left": [250, 690, 310],
  "sill-right": [255, -688, 312],
  "pillar-left": [980, 640, 930],
  "pillar-right": [985, -642, 928],
  "roof-middle": [420, 5, 1290],
  turret: [-720, 410, 640],
};
const DATUM = ["origin", "ahead", "aside"];

/** Every tape between two marks but those between the three of the datum, in order. */
export const PAIRS: readonly (readonly [string, string])[] = Object.keys(SHELL).flatMap((p, i, all) =>
  all.slice(i + 1).flatMap((q) => (DATUM.includes(p) && DATUM.includes(q) ? [] : [[p, q] as const])),
);

const apart = (p: string, q: string): number => {
  const [a, b] = [SHELL[p]!, SHELL[q]!];
  return Math.hypot(a[0] - b[0], a[1] - b[1], a[2] - b[2]);
};

/** The tape that was misread by 30 mm. */
export const BLUNDER = ["sill-left", "roof-middle"] as const;

/**
 * A car of unknown marks read with a tape alone (± 1 mm, seeded, to half a millimetre), one tape misread by 30 mm;
 * `heights`: two of them, which say which way is up.
 */
export function shellJob(seed = 11) {
  const random = seeded(seed);
  const tapes = PAIRS.map(([p, q]) => {
    const read = apart(p, q) + normal(random) + (p === BLUNDER[0] && q === BLUNDER[1] ? 30 : 0);
    return { tape: [p, q], length: Math.round(2 * read) / 2 };
  });
  const points = Object.fromEntries(
    Object.entries(SHELL).map(([id, at]) => [id, DATUM.includes(id) ? [...at] : {}]),
  );
  return {
    format: "tubewright job",
    version: 2,
    name: "Shell by tape",
    points,
    readings: [...tapes, { height: "roof-middle", z: 1290 }, { height: "turret", z: 640.5 }],
  };
}
