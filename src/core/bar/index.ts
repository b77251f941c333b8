export type { Built, Named } from "./build.ts";
export { centrelineOf, mirroredLine, reversed } from "./build.ts";
export { placesOf } from "./places.ts";
export { tapeMark } from "./section.ts";
export { smallTurn } from "./small.ts";
export type { Crossings, OnLine } from "./station.ts";
export { closestOnPiece, closestTo, crossings, onArc, pieceAt, placeAt } from "./station.ts";
export type { Arc, Bend, Centreline, Piece, SmallCorner, Straight } from "./types.ts";
