// session.ts is not listed: the page loads the engine itself only where no worker runs.
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
export { standsIn } from "./stands.ts";
