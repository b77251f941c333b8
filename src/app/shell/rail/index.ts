export { KEYS } from "./keys.ts";
export { Rail } from "./rail.tsx";
