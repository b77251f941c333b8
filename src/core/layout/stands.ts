import { type AsBuilt, type Job, stands, type Tube } from "../job/types.ts";

/** A bar where it is in the car, and the tube and the radius that it was really made with. */
export interface Standing extends AsBuilt {
  readonly tube?: Pick<Tube, "od" | "wall" | "material">;
  readonly clr?: number;
}

/**
 * Bars whose place in the car is known: as they were read, else where they were fitted or tacked. The radius is what
 * is known now of the die that a bar was bent on.
 */
export function placesKnown(job: Job): Readonly<Record<string, Standing>> {
  const found: Record<string, Standing> = Object.create(null);
  for (const [id, built] of Object.entries(job.asBuilt ?? {})) found[id] = built;
  for (const [id, { to }] of Object.entries(job.made ?? {})) {
    if (!to || !stands(job.bars[id]?.progress)) continue;
    const built = found[id] ?? to.tacked ?? to.fitted;
    if (!built) continue;
    const die = to.bent?.die;
    const clr = die && ((die.id === undefined ? undefined : job.dies[die.id]?.clr) ?? die.clr);
    found[id] = {
      path: built.path,
      ...("over" in built && built.over ? { over: built.over } : {}),
      ...(to.sawn ? { tube: to.sawn.tube } : {}),
      ...(clr === undefined ? {} : { clr }),
    };
  }
  return found;
}
