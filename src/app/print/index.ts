export { Print } from "./print.tsx";
