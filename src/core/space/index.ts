export { beyondOutline, type Outline, outlineOf, PLATE_THICKNESS, unsizedRadius } from "./outline.ts";
export type { Vec } from "./vec.ts";
export {
  add,
  along,
  anySquare,
  between,
  cross,
  dist,
  dot,
  FORWARD,
  LEFT,
  len,
  lerp,
  mirrored,
  neg,
  ORIGIN,
  scale,
  square,
  sub,
  turn,
  UP,
  unit,
} from "./vec.ts";
