/** Which side of the car a place is on. */
export const CAR_SIDES = ["left", "centre", "right"] as const;
export type CarSide = (typeof CAR_SIDES)[number];

/**
 * Places of a body shell and of what is built into it, as a shop calls them, by where one is at the car: common shop
 * usage, no source. The ID is what a job keeps; the words are what a person reads.
 */
export const CAR_PLACES: readonly {
  readonly where: string;
  readonly places: readonly (readonly [id: string, says: string])[];
}[] = [
  {
    where: "Floor",
    places: [
      ["sill", "Sill"],
      ["sill-front", "Sill front"],
      ["sill-rear", "Sill rear"],
      ["floor-rail", "Floor rail"],
      ["seat-rail", "Seat rail"],
      ["transmission-tunnel", "Transmission tunnel"],
      ["heelboard", "Heelboard"],
      ["jacking-point", "Jacking point"],
    ],
  },
  {
    where: "Pillars and doors",
    places: [
      ["a-pillar-foot", "A-pillar foot"],
      ["a-pillar-belt-line", "A-pillar belt line"],
      ["a-pillar-top", "A-pillar top"],
      ["b-pillar-foot", "B-pillar foot"],
      ["b-pillar-belt-line", "B-pillar belt line"],
      ["b-pillar-top", "B-pillar top"],
      ["c-pillar-foot", "C-pillar foot"],
      ["c-pillar-top", "C-pillar top"],
      ["door-hinge", "Door hinge"],
      ["door-lock", "Door lock"],
    ],
  },
  {
    where: "Roof",
    places: [
      ["header", "Header"],
      ["roof-rail-front", "Roof rail front"],
      ["roof-rail", "Roof rail"],
      ["roof-rail-rear", "Roof rail rear"],
      ["roof-skin", "Roof skin"],
      ["rear-header", "Rear header"],
    ],
  },
  {
    where: "Front",
    places: [
      ["front-strut-top", "Front strut top"],
      ["front-rail", "Front rail"],
      ["bulkhead", "Bulkhead"],
      ["dash-top", "Dash top"],
      ["steering-column", "Steering column"],
      ["front-wheel-arch", "Front wheel arch"],
    ],
  },
  {
    where: "Rear",
    places: [
      ["rear-strut-top", "Rear strut top"],
      ["rear-rail", "Rear rail"],
      ["rear-wheel-arch", "Rear wheel arch"],
      ["rear-bulkhead", "Rear bulkhead"],
      ["parcel-shelf", "Parcel shelf"],
      ["seat-belt-mount", "Seat belt mount"],
    ],
  },
];

/** The marks of a datum, from which all else is found. */
const MARKS: readonly (readonly [id: string, says: string])[] = [
  ["origin", "Origin mark"],
  ["ahead", "Mark ahead"],
  ["left", "Mark left"],
];

const SAYS = new Map([...MARKS, ...CAR_PLACES.flatMap(({ places }) => places)]);

/** An ID made of words by hyphens. */
const SLUG = /^[a-z0-9]+(-[a-z0-9]+)*$/;
const SIDED = /^(.+?)(-left|-right)?(-\d+)?$/;

/**
 * A point's ID as a person reads it: "a-pillar-foot-left" is "A-pillar foot left". An ID that is no words by hyphens was
 * typed as it is and is said so.
 */
export function pointWords(id: string): string {
  if (!SLUG.test(id)) return id;
  const [, place = id, side = "", number = ""] = SIDED.exec(id) ?? [];
  const plain = SAYS.get(place) ?? place.replaceAll("-", " ");
  return `${plain.charAt(0).toUpperCase()}${plain.slice(1)}${`${side}${number}`.replaceAll("-", " ")}`;
}

/** The ID of a place on one side of the car. */
export const carPlaceId = (place: string, side: CarSide): string =>
  side === "centre" ? place : `${place}-${side}`;

/** The same place on the other side, by its ID; undefined for one in the middle. */
export function mirroredPlace(id: string): string | undefined {
  const other = id.replace(/\b(left|right)\b/g, (side) => (side === "left" ? "right" : "left"));
  return other === id ? undefined : other;
}
