export { Board } from "./board-later.ts";
export { useForce, useGoesIn } from "./goes-in.ts";
export { OrderLine } from "./order-line.tsx";
export { CAR_PART } from "./show-way.ts";
export { useOrderFound } from "./use-order-found.ts";
export { useStanding } from "./use-standing.ts";
export { WayIn } from "./way-in.tsx";
