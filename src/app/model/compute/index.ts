export type { ChangeAsk, MadeChange } from "./answers/change.ts";
export type { DiffersReply } from "./answers/differs.ts";
export type { AnswerOf, AskKind, AskOf } from "./answers/index.ts";
export { type Computer, computerOn } from "./computer.ts";
export { workerEngine } from "./engine.ts";
export { hostsOf } from "./hosts.ts";
export { engineInPage } from "./in-page.ts";
export { type LongRun, type Progress, runLong } from "./long.ts";
export type { FitAsked, FitPart, FoundCure } from "./long-kinds/fit.ts";
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
  SeenPage,
  SeenPrint,
} from "./protocol.ts";
export { standsIn } from "./stands.ts";
