export { Wall } from "./wall.tsx";
