export type { Box } from "./box.ts";
export { apart, boxOf, obstacleBox, seatBox, solidBox, union } from "./box.ts";
export type { Capsules } from "./capsules.ts";
export {
  boundingSphere,
  capsulesOf,
  pointSegmentDistanceSquared,
  segmentDistanceSquared,
} from "./capsules.ts";
export type { Asked, Checker } from "./clearance.ts";
export { checker } from "./clearance.ts";
export { closestPoints } from "./closest-points.ts";
export { segmentsTo } from "./distance.ts";
export type { FitBar } from "./fitbar.ts";
export type { Gate } from "./gate.ts";
export type { LandsOn } from "./lands.ts";
export { above, inTurn, landsOnOf, withLanders } from "./lands.ts";
export { partsOf, plateObstacle } from "./parts.ts";
export type { Pose, Quat } from "./pose.ts";
export {
  compose,
  interpolate,
  moved,
  placed,
  placer,
  quatOf,
  SEAT,
  turnAngle,
  turned,
  unitQuat,
} from "./pose.ts";
export type { Facet, Obstacle, Scene } from "./scene.ts";
export { height, over } from "./scene.ts";
export type { Triangle } from "./sheet.ts";
export type { Slab } from "./slab.ts";
export { awayFromSlab, segmentFromSlab } from "./slab.ts";
export type { Over, Solid, SolidEnd } from "./solid.ts";
export { inwardFrom, rimPlace, solidOf } from "./solid.ts";
export { standing } from "./standing.ts";
export type { Thing } from "./things.ts";
export { barThing, partThing } from "./things.ts";
export { tipsOf } from "./tips.ts";
export { MERE_TOUCH } from "./touch.ts";
