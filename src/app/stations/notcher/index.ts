export { Notcher } from "./notcher.tsx";
