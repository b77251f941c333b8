export { Board } from "./board-later.ts";
export { useForce, useGoesIn } from "./goes-in.ts";
export { OrderLine } from "./order-line.tsx";
export { hostsOf, inJobOrder, orderOf } from "./row.ts";
export { rowSays } from "./row-says.ts";
export { CAR_PART, openTags, WALL_TAGS } from "./show-way.ts";
export { useLook } from "./use-look.ts";
export { useStanding } from "./use-standing.ts";
export { WayIn } from "./way-in.tsx";
