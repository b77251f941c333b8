import { parentPort, workerData } from "node:worker_threads";
import { planJob } from "../core/plan/index.ts";
import { type FitCall, fittingFor, judgeUnit, type Unit } from "./fit-units.ts";

/** One thread of `tubewright fit`: computes the job once, then judges the units it is sent, bar by bar. */
const call = workerData as FitCall;
const fitting = fittingFor(planJob(call.job), call);
const port = parentPort;
if (!port) throw new Error("this runs as a thread of `tubewright fit`");
port.on("message", (unit: Unit) => {
  judgeUnit(fitting, call.order, unit, (judged) => {
    port.postMessage({ judged });
  });
  port.postMessage({ done: true });
});
