import { nodeDisk, settle } from "./folder/index.ts";
import { livesBeside } from "./platform.ts";

/**
 * Runs beside `cards` while one folder takes the place of another, and waits for the end of its input. Where that
 * comes without a word, `cards` was killed, and this puts the folder right at once.
 */
const [folder, pid] = process.argv.slice(2);
let word = "";
process.stdin.on("data", (bytes: Buffer) => {
  word += bytes.toString();
});
process.stdin.on("end", () => {
  if (word === "" && folder !== undefined) settle(nodeDisk, folder, livesBeside(Number(pid)));
});
