import { type Centreline, closestTo, placeAt } from "../bar/index.ts";
import { dot, mirrored } from "../space/index.ts";
import type { ResolvedBar } from "./types.ts";

type Hosts = (id: string) => ResolvedBar | undefined;

/** Bars as they were wanted and as they were built. */
export interface Both {
  readonly wanted: Hosts;
  readonly built: Hosts;
}

/**
 * The station (mm, from A) of a bar as built where a landing's mirror image is, the bar being its own mirror image as
 * wanted. `along` is the landing's own station, negative from end B.
 *
 * A station is measured from an end, and on the other side of the car from the end that stands there: on a hoop, whose
 * ends change places in the mirror, from B what the landing has from A. So as wanted the two are mirror images, and on
 * the bar as built each is as far from the end on its own side as was asked for, however long the bar came out. On a bar
 * in the centre plane no end changes places. (A wanted bar that is its own image only about the landing keeps what the
 * landing's image has from that end.)
 */
export function onOtherSide(along: number, host: string, bars: Both): number {
  const wanted = bars.wanted(host)?.centreline;
  const built = bars.built(host)?.centreline;
  if (!wanted || !built) return along;
  const { image, turns } = turnsRound(wanted, along);
  const fromB = along < 0;
  return turns === fromB ? image : built.length - (wanted.length - image);
}

/** Where the mirror image of a station is on a bar that is its own image, and whether the bar runs the other way there. */
export function turnsRound(
  wanted: Centreline,
  along: number,
): { readonly image: number; readonly turns: boolean } {
  const landing = placeAt(wanted, along < 0 ? wanted.length + along : along);
  const image = closestTo(wanted, mirrored(landing.at)).s;
  return { image, turns: dot(mirrored(landing.dir), placeAt(wanted, image).dir) < 0 };
}
