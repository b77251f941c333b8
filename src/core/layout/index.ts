export { followCorners } from "./follow.ts";
export { layOut } from "./layout.ts";
export { twinsOf } from "./mirror.ts";
export { mutualEnds } from "./mutual.ts";
export { leastBend } from "./path.ts";
export type { PlaceOfPlate } from "./plates.ts";
export { platesUnder } from "./plates.ts";
export { pointsNamed, pointsUnder } from "./points.ts";
export type { LaidOut, Layout, ResolvedBar, Seat } from "./types.ts";
