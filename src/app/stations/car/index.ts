export { Car } from "./car.tsx";
