import { doLong, type LongTask } from "./long-task.ts";

addEventListener("message", (event: MessageEvent<LongTask>) =>
  doLong(event.data, (word) => postMessage(word)),
);
