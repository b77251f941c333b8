import { jobSchemaJson } from "../core/job/index.ts";
import { type Command, WrongCall, words } from "./call.ts";

export const schema: Command = {
  about: "print the job file's format as JSON Schema",
  usage: "tubewright schema",
  run: (args, platform) => {
    const { positionals } = words(args, { json: { type: "boolean" } });
    if (positionals.length > 0) throw new WrongCall("schema takes no file");
    platform.out(`${JSON.stringify(jobSchemaJson(), null, 2)}\n`);
    return 0;
  },
};
