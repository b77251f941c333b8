/** In the small pictures of how a reading is taken. */
export const PICTURE = {
  reads: "reads",
  held: {
    point: "punch mark",
    outside: "far side",
    inside: "near side",
    centre: "centre",
    corner: "corner",
  },
  bead: "bead",
  level: "level",
  plumb: "plumb",
  centrePlane: "centre plane",
  zero: "x = 0",
  finder: "finder on both legs",
  flat: "the bend flat on the table",
  slope: {
    line: ["1", "2"],
    along: ["rear", "front"],
    across: ["right", "left"],
  },
} as const;

/** From where such a picture is seen. */
export const SEEN = {
  bend: "seen square to the bend",
  tape: "seen square to the tape",
  tube: "seen along the tube",
  height: "seen level, the floor below",
  above: "seen from above, forward is up",
  both: "seen level, square to both",
  level: "seen level",
  line: "seen level, square to the line",
  left: "seen from the left of the car",
  behind: "seen from behind the car",
  endToEnd: "seen from above, centre to centre of the sawn ends",
  leg: "from the sawn end to where the outer lines meet; seen square to the bend",
  across: "outside to outside, square across; seen square to the legs",
  offFlat: "seen along the table: from it to the underside of the end",
  angle: "how far the second leg is bent from the first; seen square to the bend",
} as const;
