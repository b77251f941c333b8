export { overviewDrawn } from "./overview.ts";
export { markStrip } from "./strip.ts";
export { finishedBar, markedTube } from "./tube.ts";
export { checkMarks, cropped, wrapDrawn, wrapsOn } from "./wrap.ts";
