export { Trestles } from "./trestles.tsx";
