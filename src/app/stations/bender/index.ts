export { Bender } from "./bender.tsx";
