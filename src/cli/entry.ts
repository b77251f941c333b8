import { main } from "./main.ts";
import { node } from "./platform.ts";

// A reader that goes away (a pipe to head) is no fault of ours.
process.stdout.on("error", (error: NodeJS.ErrnoException) => {
  if (error.code === "EPIPE") process.exit(0);
  throw error;
});
process.exitCode = await main(process.argv.slice(2), node);
