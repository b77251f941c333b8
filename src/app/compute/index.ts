// session.ts is not listed: the page loads the engine itself only where no worker runs.
export type { AnswerOf, AskKind, AskOf } from "./answers/index.ts";
export { type Computer, computerOn } from "./computer.ts";
export { workerEngine } from "./engine.ts";
export { type LongRun, type Progress, runLong } from "./long.ts";
export type { LongAnswer, LongKind } from "./long-kinds/index.ts";
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
