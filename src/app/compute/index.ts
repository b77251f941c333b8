export { type Computer, computerOn } from "./computer.ts";
export { workerEngine } from "./engine.ts";
export type {
  BarResult,
  BarWithout,
  CardRequest,
  ComputeAnswer,
  ComputeRequest,
  Engine,
  NotchRequest,
  Results,
} from "./protocol.ts";
export { sessionWith } from "./session.ts";
export { standsIn } from "./stands.ts";
