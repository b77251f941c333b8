export { Between } from "./between.tsx";
